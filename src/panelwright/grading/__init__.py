"""A range of sizes from one design: nested pieces, and how far each corner moves from size to size."""
