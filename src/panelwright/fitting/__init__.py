"""What a fitting found: notes on a wearer's block, kept apart from designs and carried out before any of them."""
