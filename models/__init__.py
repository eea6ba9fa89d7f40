"""What is true: lengths, the job, the floor's geometry, the constraint programs. Never searched."""
