"""Who needs a word: by what holds for the client, where her coach has set that for her alone."""

from datetime import UTC, date, datetime

from core.oversight.facts import ClientFacts
from core.oversight.misses import Past
from core.oversight.words import WhyCode, reasons_for_a_word
from core.policy import Policy

ON = date(2026, 4, 12)
MISSED = tuple(
    Past(session_id=each, on=date(2026, 4, 6 + 2 * each), state="missed", reason=None) for each in (1, 2)
)


def facts(policy: Policy | None) -> ClientFacts:
    return ClientFacts(
        client_id=1,
        name="Ada",
        state="active",
        reachable=True,
        began_on=date(2026, 1, 5),
        heard_at=datetime(2026, 4, 11, tzinfo=UTC),
        past=MISSED,
        policy=policy,
    )


def test_misses_in_a_row_count_by_the_client_s_own_rule() -> None:
    everybody, later = Policy(), Policy(miss_run=3)

    assert [each.code for each in reasons_for_a_word(facts(None), ON, everybody)] == [WhyCode.RUN]
    assert reasons_for_a_word(facts(later), ON, everybody) == ()
    assert [each.code for each in reasons_for_a_word(facts(everybody), ON, later)] == [WhyCode.RUN]
