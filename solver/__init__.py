"""What is done: search, stock, audit, papers, command line."""
