DROP TABLE outcomes, installs, pages, scopes;
