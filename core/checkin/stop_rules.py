"""What people write when they must stop: the rules of the stop-sign scan, as tables.

A rule holds when a phrase of each of its groups stands near the others in one sentence. Words are folded: lower
case, no accents, no apostrophes. A second language is a second tuple of rules.

What is a stop sign: the signs and symptoms listed before exercise testing ([Riebe2015]) and the red flags of the low
back (BMJ Best Practice on cauda equina syndrome, seen at second hand); head injury, severe headache, suspected
fracture and heat illness from memory; stroke signs, allergic reactions and words of distress common practice, no
source.
Which of the texts each gets is our proposal, and leans to the more urgent where a sign could be either.
"""

from core.checkin.stop_rule import Rule
from core.checkin.stop_rules_birth import BIRTH
from core.checkin.stop_rules_bladder import BLADDER
from core.checkin.stop_rules_breath import BREATH
from core.checkin.stop_rules_distress import DISTRESS_WORDS
from core.checkin.stop_rules_elsewhere import ELSEWHERE
from core.checkin.stop_rules_head import HEAD
from core.checkin.stop_rules_heart import HEART
from core.checkin.stop_rules_injury import INJURY
from core.checkin.stop_rules_nerves import NERVES
from core.checkin.stop_rules_other import OTHER
from core.checkin.stop_rules_strange import STRANGE

RULES: tuple[Rule, ...] = (
    *HEART,
    *BREATH,
    *HEAD,
    *INJURY,
    *NERVES,
    *BLADDER,
    *OTHER,
    *BIRTH,
    *DISTRESS_WORDS,
    *STRANGE,
    *ELSEWHERE,
)
"""All rules, in no order: the most urgent that holds wins."""
