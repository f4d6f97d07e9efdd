"""Photos that were never taken: paper pieces and the printed reference sheet on a table, seen by a made-up camera.

Light is reckoned in linear values; the camera adds blur, noise, its tone curve and JPEG. Its lens bends by a division
model or by a polynomial from bent to straight, neither of which is the one that the code under test fits.
"""

from dataclasses import dataclass, field
from functools import cache

import cv2
import numpy as np
import pypdfium2
from intake.photo_tables import FINE, table_top
from intake.photo_truth import PaperPiece

from panelwright.drawing.paper import PAPERS
from panelwright.drawing.reference_markers import STRIPS, strip_bounds
from panelwright.drawing.reference_sheet import TITLE, reference_sheet
from panelwright.geometry.arrays import Array
from panelwright.output.pdf import pdf_bytes

SHEET_DPI = 300.0
PAPER_COLOURS = {
    "white": (0.80, 0.81, 0.82),
    "cream": (0.80, 0.76, 0.66),
    "kraft": (0.46, 0.34, 0.22),
    "grey card": (0.42, 0.42, 0.41),
    "blue": (0.45, 0.60, 0.75),
    "squared": (0.80, 0.81, 0.82),
    "tracing": (0.72, 0.73, 0.73),
    "manila": (0.70, 0.58, 0.38),
    "dotted": (0.78, 0.77, 0.74),
}
THROUGH = 0.3  # share of the table that shines through tracing paper


@dataclass(frozen=True)
class Scene:
    """What lies on the table and how it is lit and photographed; lengths in mm, angles in degrees, RGB from 0 to 1."""

    pieces: tuple[PaperPiece, ...]
    table: str = "dark"
    paper: str = "A4"
    cut: bool = False
    colour: str = "white"
    tilt: float = 15.0
    turned: float = 0.0
    roll: float = 3.0
    lens: float = -0.05
    model: str = "division"
    size: tuple[int, int] = (3000, 2250)
    focal: float = 0.85
    shade: float = 0.3
    hand: float = 0.3
    noise: float = 0.006
    blur: float = 0.7
    curl: float = 0.3
    quality: int = 88
    warm: tuple[float, float, float] = (1.0, 0.97, 0.9)
    fill: float = 0.92
    seed: int = 0
    printed: float = 1.0
    pen: tuple[float, float] = (0.4, 0.4)
    extras: dict[str, float] = field(default_factory=dict)


@cache
def printed_page(paper: str) -> Array:
    """The sheet as a printer would put it down, grey from 0 to 1, at 300 dots an inch."""
    document = pypdfium2.PdfDocument(pdf_bytes([reference_sheet(paper)], TITLE))
    page = document[0].render(scale=SHEET_DPI / 72, grayscale=True).to_numpy()
    document.close()
    return np.asarray(page, np.float32).reshape(page.shape[0], page.shape[1]) / 255.0


class Table:
    """The plane of the table as a picture in linear light, FINE pixels per mm, row 0 at the top."""

    def __init__(self, scene: Scene, low: Array, high: Array) -> None:
        self.scene, self.rng = scene, np.random.default_rng(scene.seed)
        self.low, self.high = low, high
        self.width, self.height = (int(n) for n in np.ceil((high - low) * FINE))
        self.bare = table_top(scene.table, self.width, self.height, self.rng)
        self.light = self.bare.copy()

    def pixels(self, points: Array) -> Array:
        return (points - [self.low[0], self.high[1]]) * [FINE, -FINE]

    def patch(self, points: Array, margin: float) -> tuple[slice, slice, Array]:
        """(rows, columns, pixel of its upper left) of the part of the table round points."""
        places = self.pixels(points)
        low = np.clip(np.floor(places.min(axis=0) - margin * FINE), 0, [self.width - 1, self.height - 1]).astype(int)
        high = np.clip(np.ceil(places.max(axis=0) + margin * FINE), low + 1, [self.width, self.height]).astype(int)
        return slice(low[1], high[1]), slice(low[0], high[0]), low

    def put(self, outline: Array, colour: Array, shift: Array) -> None:
        """Paper: first its soft shadow, then itself; `colour` is one RGB or a picture of the table's size."""
        rows, columns, corner = self.patch(outline, 6.0)
        light = self.light[rows, columns]
        mask = self.coverage(outline, corner, light.shape)
        shadow = cv2.GaussianBlur(self.coverage(outline + shift, corner, light.shape), (0, 0), 0.9 * FINE)
        light *= (1 - 0.45 * shadow)[..., None]
        light *= (1 - mask)[..., None]
        whole = colour.ndim == 3 and colour.shape[:2] == self.light.shape[:2]
        light += mask[..., None] * (colour[rows, columns] if whole else colour)

    def paper(self, outline: Array) -> Array:
        """The colour of a piece of paper, one RGB or a picture of its patch: squares, dots, what shines through it."""
        kind = self.scene.colour
        plain = np.array(PAPER_COLOURS[kind], np.float32) * np.float32(self.rng.uniform(0.95, 1.03))
        rows, columns, _ = self.patch(outline, 6.0)
        if kind == "tracing":
            return ((1 - THROUGH) * plain + THROUGH * 0.8 * self.bare[rows, columns]).astype(np.float32)
        if kind not in ("squared", "dotted"):
            return plain
        y, x = np.mgrid[rows, columns].astype(np.float32) / FINE
        angle = self.rng.uniform(-0.3, 0.3)
        u, v = x * np.cos(angle) + y * np.sin(angle), y * np.cos(angle) - x * np.sin(angle)
        if kind == "squared":
            line = np.maximum(np.maximum(0.3 - np.abs(u % 5 - 0.3), 0.3 - np.abs(v % 5 - 0.3)), 0) / 0.3
            ink = np.array([0.45, 0.58, 0.75])
        else:
            line = np.clip(1.4 - np.hypot(u % 25 - 12.5, v % 25 - 12.5), 0, 1)
            ink = np.array([0.15, 0.15, 0.2])
        return (plain + line[..., None] * (ink * plain - plain)).astype(np.float32)

    def coverage(self, outline: Array, corner: Array, shape: tuple[int, ...]) -> Array:
        """Share of each pixel of a patch that is inside a polygon, from 4 by 4 parts of it."""
        fine = 4
        big = np.zeros((shape[0] * fine, shape[1] * fine), np.uint8)
        places = ((self.pixels(outline) - corner) * fine - 0.5) * 256
        cv2.fillPoly(big, [np.round(places).astype(np.int32)], 255, shift=8)
        return cv2.resize(big, shape[1::-1], interpolation=cv2.INTER_AREA).astype(np.float32) / 255

    def pencil(self, line: Array, width: float, dark: float) -> None:
        rows, columns, corner = self.patch(line, 2.0)
        light = self.light[rows, columns]
        strokes = np.zeros(light.shape[:2], np.uint8)
        points = np.round((self.pixels(line) - corner) * 256 - 128).astype(np.int32)
        cv2.polylines(strokes, [points], False, 255, max(1, round(width * FINE)), cv2.LINE_AA, 8)
        grain = self.rng.uniform(0.6, 1.0, strokes.shape).astype(np.float32)
        light *= (1 - (1 - dark) * grain * strokes.astype(np.float32) / 255)[..., None]

    def print_sheet(self, place: Array, box: tuple[float, float, float, float], shift: Array) -> None:
        """The part `box` of the printed page, laid where `place` (3 by 3, from sheet to table) says."""
        left, bottom, right, top = box
        corners = np.array([(left, bottom), (right, bottom), (right, top), (left, top)])
        page = printed_page(self.scene.paper)
        high = PAPERS[self.scene.paper].height
        dots = SHEET_DPI / 25.4
        to_pixels = np.array([[FINE, 0, -self.low[0] * FINE], [0, -FINE, self.high[1] * FINE], [0, 0, 1]])
        from_dots = np.array([[1 / dots, 0, 0], [0, -1 / dots, high], [0, 0, 1]])
        half = np.array([[1, 0, 0.5], [0, 1, 0.5], [0, 0, 1]])
        whole = np.linalg.inv(half) @ to_pixels @ place @ from_dots @ half
        soft = cv2.GaussianBlur(page, (0, 0), 0.5 * dots / FINE)
        picture = cv2.warpPerspective(soft, whole, (self.width, self.height), flags=cv2.INTER_LINEAR, borderValue=1.0)
        ink = 0.03 + 0.79 * picture
        lifted = np.column_stack([corners, np.ones(4)]) @ place.T
        self.put(lifted[:, :2], ink[..., None] * np.array([0.99, 1.0, 1.0], np.float32), shift)


@dataclass(frozen=True, eq=False)
class Camera:
    """A pinhole over the table with a lens in front; `pose` carries table points to the camera's own axes."""

    scene: Scene
    rotation: Array
    place: Array

    @classmethod
    def over(cls, scene: Scene, points: Array) -> "Camera":
        """As close as it can be with all `points` in the picture."""
        middle = (points.min(axis=0) + points.max(axis=0)) / 2
        tilt, turned, roll = np.radians([scene.tilt, scene.turned, scene.roll])
        axis = np.array([np.sin(turned) * np.sin(tilt), -np.cos(turned) * np.sin(tilt), np.cos(tilt)])
        right = np.cross([0.0, 1.0, 0.0], axis)
        right /= np.linalg.norm(right)
        down = -np.cross(axis, right)
        c, s = np.cos(roll), np.sin(roll)
        rotation = np.stack([c * right + s * down, -s * right + c * down, -axis])
        low, high = 100.0, 8000.0
        for _ in range(40):
            far = (low + high) / 2
            camera = cls(scene, rotation, np.append(middle, 0.0) + far * axis)
            inside = camera._inside(points)
            low, high = (low, far) if inside else (far, high)
        return cls(scene, rotation, np.append(middle, 0.0) + high * axis)

    @property
    def _focal(self) -> float:
        return self.scene.focal * self.scene.size[0]

    def _inside(self, points: Array) -> bool:
        at = (np.column_stack([points, np.zeros(len(points))]) - self.place) @ self.rotation.T
        flat = at[:, :2] / at[:, 2:] * self._focal
        half = np.array(self.scene.size) / 2 * self.scene.fill
        return bool((at[:, 2] > 0).all() and (np.abs(flat) < half).all())

    def to_table(self, pixels: Array) -> Array:
        """Where the table is seen at pixels, shape (..., 2), exactly."""
        width, height = self.scene.size
        half = np.hypot(width, height) / 2
        bent = (pixels - np.array([(width - 1) / 2, (height - 1) / 2])) / half
        squared = (bent**2).sum(axis=-1, keepdims=True)
        if self.scene.model == "division":
            straight = bent / (1 + self.scene.lens * squared)
        else:
            straight = bent * (1 - self.scene.lens * squared + 0.4 * self.scene.lens * squared**2)
        rays = np.concatenate([straight * half / self._focal, np.ones_like(straight[..., :1])], axis=-1) @ self.rotation
        far = -self.place[2] / rays[..., 2:]
        return self.place[:2] + far * rays[..., :2]

    def lifted(self, points: Array, height: Array) -> Array:
        """Where on the table points at a height appear to lie."""
        return points + (points - self.place[:2]) * (height / (self.place[2] - height))[:, None]


def strip_places(scene: Scene, low: Array, high: Array, rng: np.random.Generator) -> list[tuple[Array, tuple]]:
    """(from sheet to table, part of the sheet) for the uncut sheet to the right of low … high, or strips round it."""
    page = PAPERS[scene.paper]
    if not scene.cut:
        angle = rng.normal(0.0, 0.08)
        place = shifted(np.array([high[0] + 30.0, (low[1] + high[1] - page.height) / 2])) @ rotated(angle)
        return [(place @ scaled(scene.printed), (0.0, 0.0, page.width, page.height))]
    found = []
    middle = (low + high) / 2
    for strip in STRIPS:
        box = strip_bounds(scene.paper)[strip]
        centre = np.array([(box[0] + box[2]) / 2, (box[1] + box[3]) / 2])
        out = {"top": (0, 1), "right": (1, 0), "bottom": (0, -1), "left": (-1, 0)}[strip]
        thick = min(box[2] - box[0], box[3] - box[1]) / 2
        reach = (high - low) / 2 + thick + 14.0
        spot = middle + np.array(out) * reach + np.array(out[::-1]) * rng.normal(0, 8)
        turned = rotated(rng.uniform(-0.06, 0.06) + np.pi * rng.integers(0, 2))
        found.append((shifted(spot) @ turned @ scaled(scene.printed) @ shifted(-centre), box))
    return found


def rotated(angle: float) -> Array:
    c, s = np.cos(angle), np.sin(angle)
    return np.array([[c, -s, 0], [s, c, 0], [0, 0, 1]])


def shifted(by: Array) -> Array:
    return np.array([[1, 0, by[0]], [0, 1, by[1]], [0, 0, 1]])


def scaled(by: float) -> Array:
    return np.diag([by, by, 1.0])


def render(scene: Scene) -> tuple[np.ndarray, Camera]:
    """(photo as the camera would save it, blue, green, red; the camera that knows where everything is)."""
    rng = np.random.default_rng(scene.seed + 1000)
    everything = np.concatenate([piece.outline for piece in scene.pieces])
    low, high = everything.min(axis=0), everything.max(axis=0)
    sheets = strip_places(scene, low, high, rng)
    spots = [everything]
    for place, (left, bottom, right, top) in sheets:
        corners = np.array([(left, bottom, 1), (right, bottom, 1), (right, top, 1), (left, top, 1)])
        spots.append((corners @ place.T)[:, :2])
    camera = Camera.over(scene, np.concatenate(spots))
    frame = rim(*scene.size)
    seen = camera.to_table(frame)
    around = np.concatenate(spots)
    table_low = np.maximum(seen.min(axis=0) - 2, around.min(axis=0) - 60)
    table_high = np.minimum(seen.max(axis=0) + 2, around.max(axis=0) + 60)
    table = Table(scene, table_low, table_high)
    shadow = rng.normal(0, 0.8, 2)
    for place, box in sheets:
        table.print_sheet(place, box, shadow)
    for piece in scene.pieces:
        put_piece(table, piece, camera, shadow, rng)
    return developed(table, camera, rng), camera


def put_piece(table: Table, piece: PaperPiece, camera: Camera, shadow: Array, rng: np.random.Generator) -> None:
    scene = table.scene
    outline = dense(piece.outline, 1.0)
    middle, way = outline.mean(axis=0), rng.normal(0, 1, 2)
    way /= np.linalg.norm(way)
    across = np.ptp(outline @ way) / 2

    def lift(points: Array) -> Array:
        return camera.lifted(points, scene.curl * np.minimum(1.5, (((points - middle) @ way) / across) ** 2))

    lifted = lift(outline)
    table.put(lifted, table.paper(lifted), shadow)
    wide, dark = scene.pen
    for k, line in enumerate(piece.lines):
        table.pencil(lift(dense(line, 1.0, closed=False)), wide, dark)
        if k == 0:
            for head in arrow_heads(line):
                table.pencil(lift(head), wide, dark)
    for notch in piece.notches:
        table.pencil(lift(notch), wide, 0.9 * dark)
    if piece.fold is not None:
        table.pencil(lift(dense(bracket(piece.fold), 1.0, closed=False)), wide, dark)
        for head in arrow_heads(bracket(piece.fold)[[0, 1]])[:1] + arrow_heads(bracket(piece.fold)[[3, 2]])[:1]:
            table.pencil(lift(head), wide, dark)


def bracket(edge: Array) -> Array:
    """The sign beside an edge that lies on the fold: a line along it whose ends turn out to it, shape (4, 2)."""
    way = (edge[1] - edge[0]) / np.linalg.norm(edge[1] - edge[0])
    inward = np.array([-way[1], way[0]])
    a, b = edge[0] + 0.2 * (edge[1] - edge[0]), edge[0] + 0.8 * (edge[1] - edge[0])
    return np.array([a + 0.8 * inward, a + 6 * inward, b + 6 * inward, b + 0.8 * inward])


def arrow_heads(line: Array) -> list[Array]:
    way = (line[-1] - line[0]) / np.linalg.norm(line[-1] - line[0])
    side = np.array([-way[1], way[0]])
    heads = []
    for tip, back in ((line[0], way), (line[-1], -way)):
        heads.append(np.array([tip + 3 * back + 1.2 * side, tip, tip + 3 * back - 1.2 * side]))
    return heads


def dense(points: Array, step: float, closed: bool = True) -> Array:
    ring = np.vstack([points, points[:1]]) if closed else points
    arcs = np.concatenate([[0.0], np.cumsum(np.hypot(*np.diff(ring, axis=0).T))])
    at = np.union1d(arcs, np.arange(0.0, arcs[-1], step))
    found = np.column_stack([np.interp(at, arcs, ring[:, axis]) for axis in (0, 1)])
    return found[:-1] if closed else found


def rim(width: int, height: int) -> Array:
    x, y = np.linspace(0, width - 1, 30), np.linspace(0, height - 1, 30)
    sides = [(a, b) for a in x for b in (0, height - 1)] + [(a, b) for b in y for a in (0, width - 1)]
    return np.array(sides, float)


def developed(table: Table, camera: Camera, rng: np.random.Generator) -> np.ndarray:
    """Light through the lens onto the sensor and into the file."""
    scene = table.scene
    width, height = scene.size
    lamp = lit(table, rng)
    laid, bare = table.light * lamp, table.bare * lamp
    rows = []
    for start in range(0, height, 256):
        y, x = np.mgrid[start : min(start + 256, height), 0:width].astype(np.float64)
        at = (table.pixels(camera.to_table(np.stack([x, y], axis=-1))) - 0.5).astype(np.float32)
        row = cv2.remap(laid, at[..., 0], at[..., 1], cv2.INTER_LINEAR, borderMode=cv2.BORDER_REFLECT)
        beyond = ((at < 0) | (at > [table.width - 1, table.height - 1])).any(axis=-1)
        if beyond.any():
            more = cv2.remap(bare, at[..., 0], at[..., 1], cv2.INTER_LINEAR, borderMode=cv2.BORDER_REFLECT)
            row[beyond] = more[beyond]
        rows.append(row)
    image = np.concatenate(rows)
    middle = camera.to_table(np.array([[width / 2, height / 2], [width / 2 + 1, height / 2]]))
    coarse = max(1.0, np.hypot(*(middle[1] - middle[0])) * FINE)
    image = cv2.GaussianBlur(image, (0, 0), np.hypot(scene.blur, 0.3 * coarse))
    y, x = np.mgrid[0:height, 0:width].astype(np.float32)
    far = ((x - width / 2) ** 2 + (y - height / 2) ** 2) / (width**2 + height**2) * 4
    image *= (1 - 0.25 * far)[..., None]
    image *= 0.9 / np.percentile(image[::8, ::8], 99.7)
    image += rng.normal(0, 1, image.shape).astype(np.float32) * scene.noise * np.sqrt(0.02 + np.clip(image, 0, 1))
    image = np.clip(image, 0, 1)
    image = np.where(image <= 0.0031308, 12.92 * image, 1.055 * image ** (1 / 2.4) - 0.055)
    return np.round(image[..., ::-1] * 255).astype(np.uint8)


def lit(table: Table, rng: np.random.Generator) -> Array:
    """The table under its lamp: a slope of light and the soft shadow of a hand, a little warm."""
    scene = table.scene
    y, x = np.mgrid[0 : table.height, 0 : table.width].astype(np.float32)
    x, y = x / table.width - 0.5, y / table.height - 0.5
    angle = rng.uniform(0, 2 * np.pi)
    light = 1 + scene.shade * (x * np.cos(angle) + y * np.sin(angle)) * 1.4
    spot = rng.uniform(-0.4, 0.4, 2)
    blob = 1 / (1 + np.exp(((x - spot[0]) ** 2 + (y - spot[1]) ** 2 - 0.04) / 0.012))
    light *= 1 - scene.hand * blob
    return np.asarray(light[..., None] * np.array(scene.warm, np.float32), np.float32)


def jpeg(photo: np.ndarray, quality: int) -> bytes:
    done, data = cv2.imencode(".jpg", photo, [cv2.IMWRITE_JPEG_QUALITY, quality])
    assert done
    return data.tobytes()
