"""The picture in the README shows what slath makes now."""

from __future__ import annotations

import numpy as np
from PIL import Image
from tests.house.readme_picture import FILE, pages, picture

COARSE = 40  # pixels of the height of a page: words blur, drawings, tables and white stay
NEAR, FAR = 10.0, 18.0  # of 255: what a changed sentence may move on the average, and what another page would


def _grey(image: Image.Image) -> np.ndarray[tuple[int, ...], np.dtype[np.float64]]:
    scale = COARSE / image.height
    return np.asarray(image.convert("L").resize((round(image.width * scale), COARSE)), float)


def test_the_picture_shows_the_pages_of_today() -> None:
    """Drawings, tables and columns stand where the picture has them; with the pages in another order it would be told."""
    kept, shown = _grey(Image.open(FILE)), pages()
    now, turned = _grey(picture(shown)), _grey(picture(shown[::-1]))
    assert kept.shape == now.shape
    assert np.abs(kept - now).mean() < NEAR
    assert np.abs(kept - turned).mean() > FAR
