"""What can be taken hold of on bones: how high they reach, where a height is given for them."""

from collections.abc import Iterator
from dataclasses import replace

from panelwright.design.body_chart import half_chart
from panelwright.design.bones import Bones
from panelwright.design.edge_grips import upright_track
from panelwright.design.grip import Grip, tracked
from panelwright.design.moved_height import moved_on_line
from panelwright.design.position import arc_on
from panelwright.pattern.pattern import Pattern


def bones_grips(step: Bones, pattern: Pattern, block: Pattern) -> Iterator[Grip]:
    """The height that bones reach up to, on the first seam from the centre front that one lies on.

    Args:
        step: the step.
        pattern: after the steps of the design.
        block: the unmodified block.
    """
    like = step.up_to
    if like is None:
        return
    chart = half_chart(block)
    known = [k for k, line in enumerate(chart.uprights) if step.seams is None or line.line in step.seams]
    upright = next((k for k in known if 0 < k < len(chart.panels)), None)
    if upright is None:
        return
    height = chart.uprights[upright].height(arc_on(chart, upright, like))
    track = upright_track(chart, upright, height, pattern)
    if track is not None:
        yield tracked(
            step,
            "top",
            "height that the bones reach up to",
            track,
            lambda arc, snap: replace(step, up_to=moved_on_line(chart, upright, arc, like, snap)),
        )
