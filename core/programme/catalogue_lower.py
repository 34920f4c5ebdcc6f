"""Rows of the catalogue for the lower body, in the order in which they are offered."""

from core.programme.catalogue_bridge import BRIDGES
from core.programme.catalogue_hinge import HINGES
from core.programme.catalogue_hip import HIPS
from core.programme.catalogue_lunge import LUNGES
from core.programme.catalogue_squat import SQUATS
from core.programme.exercises import Exercise

LOWER: tuple[Exercise, ...] = (*SQUATS, *LUNGES, *HINGES, *BRIDGES, *HIPS)
"""Squats, then one leg after the other, hinges, bridges, the sides of the hip and the calves."""
