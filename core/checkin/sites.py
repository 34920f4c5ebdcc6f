"""What people call the places that hurt or are sore.

A row names the site, or the sites it could be (then it is asked), and whether the word is that of a muscle: "sore"
or "tight" said of a muscle is soreness, of a joint, the neck or the low back it is pain. Which muscle belongs to
which site is common practice, no source; where we are not sure it is asked.
"""

from collections.abc import Mapping
from typing import NamedTuple

from core.programme.exercises import Site


class SiteWord(NamedTuple):
    """What a word for a place may mean.

    Attributes:
        sites: The site, or each it could be.
        muscle: True when the word names a muscle, so that "sore" is muscle soreness.
    """

    sites: tuple[Site, ...]
    muscle: bool = False


_JOINTS: tuple[tuple[str, Site], ...] = (
    ("neck, cervical", Site.NECK),
    ("shoulder, shoulders, rotator cuff, ac joint", Site.SHOULDER),
    ("elbow, elbows, tennis elbow, golfers elbow", Site.ELBOW),
    ("wrist, wrists", Site.WRIST),
    ("hand, hands, finger, fingers, thumb, thumbs, knuckle, knuckles, palm", Site.HAND),
    (
        "low back, lower back, lowback, lowerback, lumbar, lumbar spine, tailbone, si joint, sacrum",
        Site.LOW_BACK,
    ),
    ("base of my spine, small of my back", Site.LOW_BACK),
    ("hip, hips, hip flexor, hip flexors", Site.HIP),
    ("groin, adductor, adductors", Site.GROIN),
    ("knee, knees, kneecap, kneecaps, patella, patellar tendon", Site.KNEE),
    ("shin, shins, shin splints", Site.SHIN),
    ("ankle, ankles, achilles, achilles tendon", Site.ANKLE),
    ("foot, feet, heel, heels, toe, toes, arch, plantar fascia, big toe", Site.FOOT),
)
"""Joints, tendons and other places where sore means pain; hip flexors, groin and shins too, to be careful."""

_MUSCLES: tuple[tuple[str, Site], ...] = (
    (
        "upper back, upperback, mid back, middle back, midback, lats, lat, rhomboids, shoulder blade",
        Site.UPPER_BACK,
    ),
    ("pec, pecs, pectorals, chest, chest muscle, chest muscles", Site.CHEST),
    ("abs, ab, abdominals, abdomen, stomach muscles, obliques, core muscles", Site.ABDOMEN),
    ("quad, quads, quadriceps, thigh, thighs", Site.THIGH),
    ("hamstring, hamstrings, hammy, hammies, hams, hammie", Site.HAMSTRING),
    ("calf, calves, calfs, gastroc, soleus", Site.CALF),
    ("glute, glutes, buttock, buttocks, bum, butt, backside", Site.BUTTOCK),
    ("bicep, biceps, tricep, triceps, upper arm, upper arms", Site.UPPER_ARM),
    ("forearm, forearms, lower arm", Site.FOREARM),
    (
        "delt, delts, deltoid, deltoids, rear delts, front delts, shoulder muscle, shoulder muscles",
        Site.SHOULDER,
    ),
)

_UNCLEAR: tuple[tuple[str, tuple[Site, ...], bool], ...] = (
    ("back, spine", (Site.LOW_BACK, Site.UPPER_BACK), False),
    # The muscle runs from the neck to the middle of the back.
    ("trap, traps, trapezius", (Site.NECK, Site.UPPER_BACK), True),
    ("leg, legs", (Site.THIGH, Site.HAMSTRING, Site.KNEE, Site.CALF), True),
    ("arm, arms", (Site.UPPER_ARM, Site.FOREARM, Site.ELBOW), True),
)

JOINT_SITES: frozenset[Site] = frozenset(site for _, site in _JOINTS)
"""Sites where "sore" or "tight" is pain unless a muscle was named."""


def _table() -> dict[str, SiteWord]:
    found = {site.value: SiteWord((site,), site not in JOINT_SITES) for site in Site}
    for rows, muscle in ((_JOINTS, False), (_MUSCLES, True)):
        for listed, site in rows:
            found.update({word.strip(): SiteWord((site,), muscle) for word in listed.split(",")})
    for listed, sites, muscle in _UNCLEAR:
        found.update({word.strip(): SiteWord(sites, muscle) for word in listed.split(",")})
    return found


SITE_WORDS: Mapping[str, SiteWord] = _table()
"""What each word or phrase may mean."""


def is_soreness(word: SiteWord, site: Site) -> bool:
    """Return whether "sore" said with `word`, meant as `site`, is of a muscle; else it is pain."""
    if len(word.sites) > 1:
        return word.muscle and site not in JOINT_SITES
    return word.muscle


REGIONS: Mapping[str, tuple[Site, ...]] = {
    "neck and back": (Site.NECK, Site.UPPER_BACK, Site.LOW_BACK),
    "shoulder and arm": (Site.SHOULDER, Site.UPPER_ARM, Site.ELBOW, Site.FOREARM, Site.WRIST, Site.HAND),
    "chest and belly": (Site.CHEST, Site.ABDOMEN),
    "hip and seat": (Site.HIP, Site.GROIN, Site.BUTTOCK),
    "leg and foot": (
        Site.THIGH,
        Site.HAMSTRING,
        Site.KNEE,
        Site.SHIN,
        Site.CALF,
        Site.ANKLE,
        Site.FOOT,
    ),
}
"""The short list by region, from the head down; each site once."""
