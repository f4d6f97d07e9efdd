"""What is bought for bones: so many of each length, casing, and how the lengths were reckoned."""

from collections.abc import Sequence
from typing import Final, Literal

from panelwright.design.bone import CHANNEL_ROOM, Bone
from panelwright.pattern.notion import Notion
from panelwright.pattern.working import Part, Working

BoneKind = Literal["spiral", "flat", "plastic"]
NAMES: Final[dict[BoneKind, str]] = {
    "spiral": "spiral steel bone",
    "flat": "flat steel bone",
    "plastic": "plastic bone",
}
SHORTER: Final = 10.0  # mm by which a bone may be shorter than there is room for (own choice); never longer
CASING_OVER: Final = 20.0  # mm of casing beyond each bone, to turn in at both ends (CP)


def bone_workings(uid: str, bones: Sequence[Bone], kind: BoneKind, width: float) -> tuple[Working, ...]:
    """`<uid>/<bone>`: how long each is; `<uid>/channel-width`; `<uid>/casing`: of all bones together."""
    channel = Working(
        f"{uid}/channel-width",
        "Channel of a bone, from stitch line to stitch line",
        (Part("width of the bone", width), Part("room to slide it in", CHANNEL_ROOM)),
        short=0.0,
        long=0.0,
        note="Measure the sewn channel before cutting a bone, and cap both ends of the bone.",
        rule_of_thumb="A bone ends a little short of each stitched edge and never crosses one.",
    )
    casing = Working(
        f"{uid}/casing",
        "Casing for all bones",
        (
            *(Part(f"{bone.count} × bone {bone.place}", bone.count * bone.length) for bone in bones),
            Part("to turn in at both ends of each", CASING_OVER * sum(bone.count for bone in bones)),
        ),
        short=0.0,
        long=0.0,
        note="A channel that is stitched through two layers of cloth needs no casing.",
    )
    return (*(_length(uid, bone, kind) for bone in bones), channel, casing)


def bone_notions(uid: str, bones: Sequence[Bone], kind: BoneKind) -> tuple[Notion, ...]:
    """Bones by length, the longest first, and the casing in one length."""
    by_length: dict[float, list[Bone]] = {}
    for bone in sorted(bones, key=lambda bone: -bone.length):
        by_length.setdefault(bone.length, []).append(bone)
    found = [
        Notion(
            "bone",
            NAMES[kind],
            sum(bone.count for bone in same),
            length,
            uid,
            "; ".join(dict.fromkeys(bone.place for bone in same)),
            f"{uid}/{same[0].name}" if len(same) == 1 else "",
        )
        for length, same in by_length.items()
    ]
    total = sum(bone.count * (bone.length + CASING_OVER) for bone in bones)
    detail = "cut up for the bones; a channel through two layers needs none"
    return (*found, Notion("casing", "bone casing", 1, total, uid, detail, f"{uid}/casing"))


def _length(uid: str, bone: Bone, kind: BoneKind) -> Working:
    reach = "from end to end" if bone.high else "from the lower edge up to where bones end"
    parts = [
        Part(f"{bone.place}, {reach}", bone.whole),
        Part("free at the lower end", -bone.low),
        Part("free at the upper end", -bone.high),
        Part("down to a length that is sold", bone.length - bone.room),
    ]
    name = NAMES[kind]
    return Working(
        f"{uid}/{bone.name}",
        f"{name[0].upper()}{name[1:]} {bone.place}",
        tuple(part for part in parts if part.length),
        short=SHORTER,
        long=0.0,
    )
