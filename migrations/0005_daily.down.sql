DROP TABLE daily;
