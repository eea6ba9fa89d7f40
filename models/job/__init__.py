"""The job as frozen data (``data``), and the reader of job files with its checks."""
