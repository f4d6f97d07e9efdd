"""Our flattening beside libigl's as-rigid-as-possible one, on the same triangles of the same body panels."""

import igl
import numpy as np
import pytest
from plausible_bodies import plausible_bodies

from panelwright.blocks.make_block import make_block
from panelwright.blocks.options import BlockOptions
from panelwright.blocks.panel_fit import PanelFit
from panelwright.body.measurements import Measurements


def triangles(rows: int, columns: int) -> np.ndarray:
    index = np.arange(rows * columns).reshape(rows, columns)
    a, b, c, d = index[:-1, :-1], index[:-1, 1:], index[1:, :-1], index[1:, 1:]
    return np.concatenate([np.stack([a, b, c], -1).reshape(-1, 3), np.stack([b, d, c], -1).reshape(-1, 3)])


def meshes(fit: PanelFit) -> tuple[np.ndarray, np.ndarray, np.ndarray]:
    """A panel as a mesh of about 10 mm: points on the body, on paper, and the triangles."""
    z, u = fit.body.rows.z[::2], np.linspace(0.0, 1.0, 13)
    faces = triangles(len(z), len(u))
    return fit.on_body(z, u).reshape(-1, 3), fit.flat.points(z, u).reshape(-1, 2), faces


def as_rigid_as_possible(body: np.ndarray, start: np.ndarray, faces: np.ndarray) -> np.ndarray:
    solver = igl.ARAPData()
    solver.max_iter = 300
    pinned = np.array([0], dtype=np.int64)
    start = start * [-1.0, 1.0]  # libigl sees the body from inside: seen so, the triangles run anticlockwise
    igl.arap_precomputation(body, faces.astype(np.int64), 2, pinned, solver)
    return np.asarray(igl.arap_solve(start[pinned], solver, start.copy()))


def stretches(body: np.ndarray, paper: np.ndarray, faces: np.ndarray) -> np.ndarray:
    """Length strain of every mesh edge, unsigned."""
    edges = np.unique(np.sort(np.concatenate([faces[:, [0, 1]], faces[:, [1, 2]], faces[:, [2, 0]]]), axis=1), axis=0)
    on_body = np.linalg.norm(body[edges[:, 0]] - body[edges[:, 1]], axis=1)
    on_paper = np.linalg.norm(paper[edges[:, 0]] - paper[edges[:, 1]], axis=1)
    return np.abs(on_paper / on_body - 1)


def turning(body: np.ndarray, paper: np.ndarray, faces: np.ndarray) -> float:
    """As-rigid-as-possible energy: squared distance of each triangle's map from a rotation, by area, mm²."""
    total = 0.0
    for a, b, c in faces:
        e1, e2 = body[b] - body[a], body[c] - body[a]
        x = e1 / np.linalg.norm(e1)
        y = e2 - (e2 @ x) * x
        y /= np.linalg.norm(y)
        source = np.array([[e1 @ x, e2 @ x], [e1 @ y, e2 @ y]])
        target = np.column_stack([paper[b] - paper[a], paper[c] - paper[a]])
        stretch = np.linalg.svd(target @ np.linalg.inv(source), compute_uv=False)
        total += abs(np.linalg.det(source)) / 2 * float(((stretch - 1) ** 2).sum())
    return total


# What a panel may pay, in 95th-percentile strain, for its seams, girths and straight centre front.
PRICE = {"CF": 0.02, "SF": 0.015, "SB": 0.01, "CB": 0.02}


@pytest.mark.parametrize("body", list(plausible_bodies(3, seed=7)), ids=lambda body: body.ref)
def test_strain_is_close_to_the_least_that_libigl_finds(body: Measurements) -> None:
    block = make_block(body, BlockOptions(keep="girth"))
    for fit in block.fits:
        on_body, paper, faces = meshes(fit)
        free = as_rigid_as_possible(on_body, paper, faces)
        assert turning(on_body, paper, faces) > 0.95 * turning(on_body, free, faces)  # libigl's is the least there is
        ours, least = (np.quantile(stretches(on_body, flat, faces), 0.95) for flat in (paper, free))
        assert ours < least + PRICE[fit.id]


def test_libigl_loses_girth_that_we_keep() -> None:
    """Why girths are constraints: the free flattening is short of the tape at some level."""
    block = make_block(next(plausible_bodies(1, seed=7)), BlockOptions(keep="girth"))
    lost = []
    for z in block.torso.shape.heights.values():
        ours = free = body = 0.0
        for fit in block.fits:
            on_body, paper, faces = meshes(fit)
            columns = 13
            row = int(np.abs(on_body[::columns, 2] - z).argmin())
            pick = slice(row * columns, (row + 1) * columns)
            flat = as_rigid_as_possible(on_body, paper, faces)
            body += np.linalg.norm(np.diff(on_body[pick], axis=0), axis=1).sum()
            ours += np.linalg.norm(np.diff(paper[pick], axis=0), axis=1).sum()
            free += np.linalg.norm(np.diff(flat[pick], axis=0), axis=1).sum()
        lost.append((body - ours, body - free))
    assert max(abs(ours) for ours, _ in lost) < 0.5
    assert max(abs(free) for _, free in lost) > 2.0
