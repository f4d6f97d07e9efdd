"""What a step says that needs the wearer's shoulder on a block that ends at the upper bust."""

from typing import Final

from panelwright.file_words import in_file

SHOULDER_NEEDED: Final = (
    f"it needs a block up to the shoulder, of 4 or 6 panels{in_file('block.top, shoulder, and block.panels')}"
)
