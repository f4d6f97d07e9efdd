"""What a sentence calls a piece."""

from panelwright.pattern.piece import Piece


def spoken_piece(piece: Piece) -> str:
    """`the side front piece`, by its label."""
    label = piece.label.strip()
    spoken = label if label.isupper() else label[:1].lower() + label[1:]
    return f"the {spoken} piece"
