"""The order: what each layout needs of each product, as CSV and to print."""
