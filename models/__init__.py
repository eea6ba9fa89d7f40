"""What is true: lengths, the job, the floor's geometry, the constraint programs. Never searched."""

__version__ = "0.1.0"
