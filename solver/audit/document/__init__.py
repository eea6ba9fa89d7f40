"""The layouts.json document: loading it, reading it, and what it claims as frozen data."""
