module freshet.example

go 1.26
