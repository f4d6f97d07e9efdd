"""A wearer whose bust lies high, so that the block ends less than 4 cm above her bust point; invented."""

from panelwright.body.measurements import Measurements

HIGH_BUST = Measurements.of(
    "w-30",
    {
        "back_neck_to_waist": 405.0,
        "bust_girth": 960.0,
        "underbust_girth": 820.0,
        "waist_girth": 780.0,
        "hip_girth": 1020.0,
        "upper_bust_girth": 910.0,
        "bust_point_span": 195.0,
        "bust_height": 180.0,
        "stature": 1680.0,
    },
)
