"""The comparison picture: the layouts side by side with the figures that decide."""
