"""Pointing at places of a face on its drawing."""

from __future__ import annotations

from playwright.sync_api import Page

ON_SCREEN = """(svg, [x, z]) => {
    const { scale, leftMm, topMm } = svg.dataset;
    const at = new DOMPoint((x - leftMm) / scale, (topMm - z) / scale).matrixTransform(svg.getScreenCTM());
    return [at.x, at.y];
}"""


def on_screen(page: Page, x_mm: float, z_mm: float) -> tuple[float, float]:
    """Where a place of the face lies in the window, after bringing the drawing into it."""
    svg = page.locator(".drawing[data-face] svg")
    svg.scroll_into_view_if_needed()
    x, y = svg.evaluate(ON_SCREEN, [x_mm, z_mm])
    return x, y


def click_on(page: Page, x_mm: float, z_mm: float) -> None:
    """Click a place of the face."""
    page.mouse.click(*on_screen(page, x_mm, z_mm))


def drag_over(page: Page, start_mm: tuple[float, float], end_mm: tuple[float, float]) -> None:
    """Press at one place of the face and let go at another."""
    page.mouse.move(*on_screen(page, *start_mm))
    page.mouse.down()
    page.mouse.move(*on_screen(page, *end_mm), steps=4)
    page.mouse.up()
