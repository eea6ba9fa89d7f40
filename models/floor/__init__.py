"""Plane geometry of a job: frames, rows and runs, cut sizes, pieces."""
