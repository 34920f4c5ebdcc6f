"""What somebody must not do, as a clinician or a coach says it.

A restriction is a limit that was given by a person; nothing here reads one out of pain, and nothing clears one.
"""

from enum import StrEnum
from typing import Annotated

from pydantic import PlainSerializer


class Restriction(StrEnum):
    """A limit, by what the body does. Wording: common practice, no source."""

    OVERHEAD = "no arms overhead"
    """Nothing held, pressed or pulled above the shoulders."""
    LOADED_HINGE = "no loaded hinge"
    """No bending forward at the hips against a load, the weight of the trunk over a bench being one."""
    SPINE_LOAD = "no load on the spine"
    """Nothing held, carried, pulled or landed on that the spine has to bear."""
    SPINE_BEND = "no bending or turning of the spine"
    DEEP_KNEE = "no deep knee bend"
    """No standing on a knee that is bent to a right angle or more."""
    JUMPING = "no jumping"
    """No leaving the ground and no landing."""
    SUPINE = "no lying flat on the back"
    PRONE = "no lying face down"
    """No weight on the belly or the chest; hands or forearms under the body are another thing."""
    FLOOR = "no getting down to the floor"
    HANGING = "no hanging"
    GRIP = "no loaded grip"
    """Nothing heavy held or pulled by the hand."""
    WRIST_EXTENSION = "no wrist bent back under load"
    """No weight on flat hands, no bar on the shoulders in front or pressed."""
    ONE_LEG = "no balancing on one leg"


Restrictions = Annotated[frozenset[Restriction], PlainSerializer(sorted, return_type=list[Restriction])]
"""A set of restrictions; written in order, because a set's own order changes from run to run."""
