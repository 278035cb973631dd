ALTER TABLE installs DROP COLUMN backed_up_number;
DROP TABLE proved_backups;
