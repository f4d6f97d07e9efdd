"""How a garment is sewn: the order of work, its stitches and seams, and how much thread they take."""
