"""Sets of sites that rows of the catalogue share, by what the body does.

They follow the table of site to pattern that pain is judged by: common practice, no source.
"""

from core.programme.exercises import Site

KNEE_BENT = frozenset({Site.KNEE, Site.HIP, Site.GROIN, Site.THIGH, Site.BUTTOCK})
"""Squatting, standing up."""
ON_ONE_LEG = KNEE_BENT | {Site.ANKLE}
"""The same on one leg."""
LUNGED = ON_ONE_LEG | {Site.CALF, Site.FOOT}
"""The same with a long step."""
HINGED = frozenset({Site.LOW_BACK, Site.HIP, Site.GROIN, Site.HAMSTRING, Site.BUTTOCK})
"""Bending at the hips with a load."""
BRIDGED = frozenset({Site.HIP, Site.BUTTOCK, Site.HAMSTRING, Site.LOW_BACK})
"""Lifting the hips from the floor or a bench."""
CALF_RAISED = frozenset({Site.CALF, Site.ANKLE, Site.FOOT})
"""Rising on the toes."""
HELD = frozenset({Site.HAND, Site.FOREARM, Site.WRIST})
"""A load in the hands."""
PRESSED = frozenset({Site.SHOULDER, Site.ELBOW, Site.WRIST, Site.HAND, Site.UPPER_ARM})
"""Pressing away."""
CHEST_PRESSED = PRESSED | {Site.CHEST}
"""Pressing away from the chest."""
OVERHEAD = PRESSED | {Site.NECK, Site.LOW_BACK}
"""Pressing overhead."""
PULLED = frozenset({Site.ELBOW, Site.FOREARM, Site.HAND, Site.WRIST, Site.UPPER_ARM, Site.UPPER_BACK})
"""Pulling to the body."""
HUNG = PULLED | {Site.SHOULDER, Site.NECK}
"""Pulling down, or oneself up."""
ELBOW_BENT = frozenset({Site.ELBOW, Site.WRIST, Site.FOREARM, Site.HAND, Site.UPPER_ARM})
"""Bending or straightening the elbow."""
BRACED = frozenset({Site.ABDOMEN, Site.LOW_BACK})
"""Holding the trunk."""
