"""What every paper is drawn with: pages, ink, type, labels, and the plan of a floor."""
