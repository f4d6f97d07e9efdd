"""How the panels of half a skirt are called, and the seams between them."""

from panelwright.pattern import line as lines

FRONT_SEAM, BACK_SEAM = "front-skirt", "back-skirt"


def panel_names(count: int) -> tuple[tuple[str, str], ...]:
    """(id, label) of so many panels, from centre front to centre back."""
    if count == 1:
        return (("SK", "Skirt"),)
    between = tuple((f"SKS{k}", f"Skirt side {k}" if count > 3 else "Skirt side") for k in range(1, count - 1))
    return (("SKF", "Skirt front"), *between, ("SKB", "Skirt back"))


def seam_names(places: tuple[float, ...]) -> tuple[tuple[str, str], ...]:
    """(line, label) of the seams between panels.

    Args:
        places: of each, the share of the half from centre front (0) to centre back (1); the side is at 0.5.
    """
    names, front, back = [], 0, 0
    for place in places:
        if abs(place - 0.5) < 1e-9:
            names.append((lines.SIDE, "Side seam"))
        elif place < 0.5:
            front += 1
            names.append((f"{FRONT_SEAM}-{front}", f"Front skirt seam {front}"))
        else:
            back += 1
            names.append((f"{BACK_SEAM}-{back}", f"Back skirt seam {back}"))
    return tuple(names)
