"""One person at one browser: opening a page, and moving its parts by mouse, by finger and by keys."""

import time
from collections.abc import Callable
from typing import Any

Place = tuple[float, float]

REST_SECONDS = 0.25  # longer than the page waits for a hand to rest
TWO_FRAMES = "() => new Promise(done => requestAnimationFrame(() => requestAnimationFrame(done)))"
VALUE = "element => Number(element.getAttribute('aria-valuenow'))"


class Visit:
    """A page in a window of its own.

    `complaints` is what it wrote to the console, `strangers` the addresses of others that it asked for.
    """

    def __init__(self, browser: Any, home: str, size: tuple[int, int], options: dict[str, Any]) -> None:
        wide, high = size
        touch = options.pop("touch", False)
        self.context = browser.new_context(
            viewport={"width": wide, "height": high}, has_touch=touch, locale="en-GB", **options
        )
        self.context.set_default_timeout(30_000)
        self.home = home
        self.page = self.context.new_page()
        self.complaints: list[str] = []
        self.strangers: list[str] = []
        self.expected: tuple[str, ...] = ()
        self.page.on("console", self._heard)
        self.page.on("pageerror", lambda fault: self.complaints.append(str(fault)))
        self.asking, self.last_word = 0, 0.0
        self.page.on("request", self._asked)
        self.page.on("requestfinished", self._answered)
        self.page.on("requestfailed", self._answered)
        self._fingers = self.context.new_cdp_session(self.page) if touch else None

    def _heard(self, message: Any) -> None:
        if message.type in ("error", "warning") and not any(one in message.text for one in self.expected):
            self.complaints.append(f"{message.type}: {message.text}")

    def _asked(self, request: Any) -> None:
        if not request.url.startswith((f"{self.home}/", "data:")):
            self.strangers.append(request.url)
        self.asking, self.last_word = self.asking + 1, time.monotonic()

    def _answered(self, _: Any) -> None:
        self.asking, self.last_word = self.asking - 1, time.monotonic()

    def go(self, address: str, full: bool | None = True) -> None:
        """Opens an address; waits until all of it is there, or until it can be used, or (None) not at all."""
        self.page.goto(self.home + address)
        if full is None:
            return
        self.page.wait_for_selector(f"body[data-{'full' if full else 'ready'}]", state="attached")

    # What stands on the page

    def handles(self) -> list[str]:
        """The names of the parts that can be moved, each once."""
        found = self.page.eval_on_selector_all("[data-handle]", "all => all.map(one => one.dataset.handle)")
        return list(dict.fromkeys(found))

    def handle(self, name: str) -> Any:
        """The handle of a part; where the page has several of that name, the first."""
        return self.page.locator(f'[data-handle="{name}"]').first

    def value(self, name: str) -> float:
        """Where a part stands, as a screen reader is told."""
        return float(self.handle(name).evaluate(VALUE))

    def limits(self, name: str) -> tuple[float, float]:
        handle = self.handle(name)
        return float(handle.get_attribute("aria-valuemin")), float(handle.get_attribute("aria-valuemax"))

    def centre(self, name: str) -> Place:
        """The middle of a handle in the window, brought into view."""
        handle = self.handle(name)
        handle.evaluate("element => element.scrollIntoView({block: 'center', inline: 'nearest'})")
        box = handle.bounding_box()
        return box["x"] + box["width"] / 2, box["y"] + box["height"] / 2

    def settled(self) -> None:
        """Waits until every question has its answer, no further one follows, and the last is drawn."""
        self.page.evaluate(TWO_FRAMES)
        self.until(
            "answers", lambda: self.asking <= 0 and time.monotonic() - self.last_word > REST_SECONDS, 60.0
        )
        self.page.evaluate(TWO_FRAMES)

    def until(self, what: str, is_so: Callable[[], bool], seconds: float = 15.0) -> None:
        """Asks again and again: the policy of the page forbids the browser's own way of waiting."""
        end = time.monotonic() + seconds
        while not is_so():
            assert time.monotonic() < end, f"waited in vain: {what}"
            self.page.wait_for_timeout(15)

    def wait_for_value(self, name: str, wanted: float) -> None:
        self.until(f"{name} at {wanted}", lambda: abs(self.value(name) - wanted) < 1e-6)

    def wait_until_not(self, name: str, value: float) -> float:
        """Waits until a part stands elsewhere, and hands back where."""
        self.until(f"{name} away from {value}", lambda: abs(self.value(name) - value) > 1e-6)
        return self.value(name)

    # Moving parts

    def drag(self, name: str, by: Place, finger: bool = False) -> None:
        """Takes hold of a part, moves it in small steps, and lets go."""
        x, y = self.centre(name)
        path = [(x + by[0] * share / 6, y + by[1] * share / 6) for share in range(1, 7)]
        if finger:
            self._touch("touchStart", [(x, y)])
            for place in path:
                self._touch("touchMove", [place])
            self._touch("touchEnd", [])
        else:
            self.page.mouse.move(x, y)
            self.page.mouse.down()
            for place in path:
                self.page.mouse.move(*place)
            self.page.mouse.up()

    def double_tap(self, name: str, finger: bool = False) -> None:
        x, y = self.centre(name)
        for _ in range(2):
            if finger:
                self._touch("touchStart", [(x, y)])
                self._touch("touchEnd", [])
            else:
                self.page.mouse.click(x, y)

    def put_back(self, name: str, start: float, finger: bool = False) -> None:
        """Double taps until the part is back: on a busy machine two taps may come too far apart for one."""
        for _ in range(4):
            self.settled()
            self.double_tap(name, finger)
            end = time.monotonic() + 4.0
            while time.monotonic() < end:
                if abs(self.value(name) - start) < 1e-6:
                    return
                self.page.wait_for_timeout(15)
        self.wait_for_value(name, start)

    def press(self, name: str, *keys: str) -> None:
        self.handle(name).focus()
        for key in keys:
            self.page.keyboard.press(key)

    def _touch(self, kind: str, places: list[Place]) -> None:
        assert self._fingers is not None, "open the page with touch=True"
        points = [{"x": round(x, 1), "y": round(y, 1)} for x, y in places]
        self._fingers.send("Input.dispatchTouchEvent", {"type": kind, "touchPoints": points})
