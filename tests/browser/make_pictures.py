"""Make the README's pictures anew."""

import sys
from pathlib import Path
from tempfile import TemporaryDirectory

from browser.desk import chromium
from browser.first_way import PICTURES, gone
from browser.trial import Trial


def make() -> None:
    """Go a newcomer's first way, and keep its pictures."""
    with TemporaryDirectory(prefix="plimsoll-pictures-") as folder:
        trial = Trial(Path(folder))
        try:
            with chromium() as browser:
                way = gone(browser, trial)
        finally:
            trial.ended()
    PICTURES.mkdir(exist_ok=True)
    for name, picture in way.pictures.items():
        (PICTURES / name).write_bytes(picture.png)
    sys.stdout.write(
        f"Made in {PICTURES}. The way took {len(way.pressed)} presses and {way.seconds:.0f} s.\n"
    )


if __name__ == "__main__":
    make()
