"""Invented jobs to try, all in one invented house, and the benchmark set."""
