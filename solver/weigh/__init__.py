"""One floor weighed in several products or directions, each solved by itself, side by side."""
