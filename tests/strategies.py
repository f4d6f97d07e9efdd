"""Hypothesis generators that several tests share."""

from hypothesis import strategies as st

LENGTH = {"allow_nan": False, "allow_infinity": False}


@st.composite
def block_bodies(draw: st.DrawFn) -> dict[str, float]:
    """Required measurements, mm, over the domain that a block must cover."""
    bust = draw(st.floats(700, 1500, **LENGTH))
    underbust = bust - draw(st.floats(60, 240, **LENGTH))
    waist = underbust + draw(st.floats(-120, 60, **LENGTH))
    return {
        "bust_girth": bust,
        "underbust_girth": underbust,
        "waist_girth": waist,
        "hip_girth": draw(st.floats(max(600.0, 0.95 * waist), max(800.0, 1.5 * waist), **LENGTH)),
        "back_neck_to_waist": draw(st.floats(330, 480, **LENGTH)),
    }


@st.composite
def possible_bodies(draw: st.DrawFn) -> dict[str, float]:
    """Required measurements, mm, right up to the limits of what is taken at all."""
    bust = draw(st.floats(500, 2000, **LENGTH))
    underbust = draw(st.floats(max(400.0, bust - 450), min(1900.0, bust), **LENGTH))
    waist = draw(st.floats(max(300.0, underbust / 2), min(2000.0, underbust + 400, bust + 250), **LENGTH))
    return {
        "bust_girth": bust,
        "underbust_girth": underbust,
        "waist_girth": waist,
        "hip_girth": draw(st.floats(max(400.0, 0.7 * waist), min(2400.0, 2.5 * waist), **LENGTH)),
        "back_neck_to_waist": draw(st.floats(250, 600, **LENGTH)),
    }
