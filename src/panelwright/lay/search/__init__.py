"""The search for a short lay: no-fit polygons, and moves that are led by what lies in each other."""
