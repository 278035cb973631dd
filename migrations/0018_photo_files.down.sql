DROP TRIGGER photo_left ON photos;
DROP FUNCTION photo_left;
DROP TABLE photo_chunks;
DROP TABLE photo_files;
