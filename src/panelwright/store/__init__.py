"""Saved work and its versions: wearers' measurements and designs, kept on this computer."""
