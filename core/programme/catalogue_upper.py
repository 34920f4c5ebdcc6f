"""Rows of the catalogue for the upper body, in the order in which they are offered."""

from core.programme.catalogue_arms import ARMS
from core.programme.catalogue_overhead import OVERHEAD_PRESSES
from core.programme.catalogue_press import PRESSES
from core.programme.catalogue_pull import PULLS
from core.programme.exercises import Exercise

UPPER: tuple[Exercise, ...] = (*PRESSES, *OVERHEAD_PRESSES, *PULLS, *ARMS)
"""Presses first, then what is pulled, then the arms."""
