"""Done, not done, planned, conditional, asked, seen by somebody else: cue words and how far they reach.

The shapes of the sentences are those by which two published methods explain themselves, put into the words of a
bee yard: negation after NegEx (Chapman, Bridewell, Hanbury, Cooper, Buchanan: A simple algorithm for identifying
negated findings and diseases in discharge summaries, Journal of Biomedical Informatics 34, 2001), and what is
hypothetical, past or another's after ConText (Harkema, Dowling, Thornblade, Chapman: ConText, Journal of Biomedical
Informatics 42, 2009). The shapes are from memory of these papers, not copied; which check is after which stands
beside it. Where our
contract wants more than the papers do (what is denied is left, not dropped), the contract holds.
"""

import pytest
from rule_examples import records_of, split_example, what_differs

NEGEX = [
    # a cue before what it denies: "no", "without", "denies", "did not see", "no sign of"
    "no eggs in 12 => inspection colonies=12 eggs=false",
    "12 has no eggs => inspection colonies=12 eggs=false",
    "12 without eggs => inspection colonies=12 eggs=false",
    "12 is without a queen => inspection colonies=12 queen=less",
    "didn't see eggs in 12 => inspection colonies=12 eggs=false",
    "did not see the queen in 12 => inspection colonies=12 queen=not_seen",
    "haven't seen eggs in 12 => inspection colonies=12 eggs=false",
    "couldn't find the queen in 12 => inspection colonies=12 queen=not_seen",
    "never saw the queen in 12 => inspection colonies=12 queen=not_seen",
    "no swarm cells in 12 => inspection colonies=12 queen_cells=0",
    "no chalkbrood in 12 => nothing",
    "no sign of chalkbrood in 12 => nothing",
    "no evidence of wax moth in 12 => nothing",
    "12 showed no chalkbrood => nothing",
    "12 free of chalkbrood => nothing",
    "12 negative for chalkbrood => nothing",
    "12 clear of chalkbrood => nothing",
    # a cue behind what it denies: "was ruled out", "not seen", "absent"
    "queen not seen in 12 => inspection colonies=12 queen=not_seen",
    "chalkbrood not seen in 12 => nothing",
    "chalkbrood ruled out in 12 => nothing",
    "12 chalkbrood absent => nothing",
    # the reach goes over a list
    "no eggs or open brood in 12 => inspection colonies=12 eggs=false open_brood=false",
    "no chalkbrood, sacbrood or wax moth in 12 => nothing",
    "neither 9 nor 12 has eggs => inspection colonies=9,12 eggs=false",
    # the reach ends: "but", "however", "though", a new clause, a full stop
    "no eggs in 12 but capped brood => inspection colonies=12 eggs=false capped_brood=true",
    "didn't see the queen in 12 but eggs and three frames of brood"
    " => inspection colonies=12 queen=not_seen eggs=true brood_frames=3",
    "12 no queen seen, however eggs and open brood => inspection colonies=12 queen=not_seen eggs=true open_brood=true",
    "12 no eggs though capped brood => inspection colonies=12 eggs=false capped_brood=true",
    "no eggs in 9. eggs in 12 => inspection colonies=9 eggs=false; inspection colonies=12 eggs=true",
    "no eggs in 9, eggs in 12 => inspection colonies=9 eggs=false; inspection colonies=12 eggs=true",
    "9 no eggs and 12 eggs => inspection colonies=9 eggs=false; inspection colonies=12 eggs=true",
    # words that look like a denial and are none: "not only", "no change", "no doubt"
    "not only eggs but capped brood in 12 => inspection colonies=12 eggs=true capped_brood=true",
    "no doubt 12 is queenright => inspection colonies=12 queen=right",
    "12 not bad at all, calm => inspection colonies=12 temper=calm",
    "12 no change => nothing",
]
NOT_DONE = [
    # after NegEx, of work: what is denied was left, and is kept as such
    "12 has not swarmed => change colonies=12 state=not_done step=swarmed",
    "haven't pulled the amitraz strips from 9 or 11, 12's are out"
    " => treatment colonies=9,11 state=not_done step=out agent=amitraz form=strip;"
    " treatment colonies=12 step=out agent=amitraz form=strip",
    "didn't feed 9 but put a super on 12"
    " => feed colonies=9 state=not_done; gear colonies=12 step=on item=super count=1",
    "put a super on 9 but not on 12"
    " => gear colonies=9 step=on item=super count=1; gear colonies=12 state=not_done step=on item=super",
    "9 got its amitraz strips, 12 didn't"
    " => treatment colonies=9 step=in agent=amitraz form=strip;"
    " treatment colonies=12 state=not_done step=in agent=amitraz form=strip",
    "should have pulled the amitraz strips from 9 last week"
    " => treatment colonies=9 state=not_done on=2026-06-01 on_until=2026-06-07 step=out agent=amitraz form=strip",
]
CONTEXT = [
    # hypothetical: "if", "return if", "should", "in case", "unless"
    "if 9 swarms hive it => nothing",
    "come back if 9 swarms => nothing",
    "in case 9 swarms i left a nuc box => nothing",
    "if 9 has eggs combine it with 12 => change colonies=9 state=conditional step=combined with=12",
    "if 9 is over two percent we will put in amitraz strips"
    " => treatment colonies=9 state=conditional step=in agent=amitraz form=strip",
    "if 9 is over two percent we put in amitraz strips"
    " => treatment colonies=9 state=conditional step=in agent=amitraz form=strip",
    "unless 9 has eggs by friday we requeen it => queen_work colonies=9 state=conditional on=2026-06-12 step=requeened",
    "should 9 go queenless combine it with 12 => change colonies=9 state=conditional step=combined with=12",
    # not certain
    "9 may be queenless => nothing",
    "9 could be queenless => nothing",
    "9 might be queenless => nothing",
    "not sure whether 9 is queenless => nothing",
    # asked
    "did 9 swarm? => nothing",
    "is 9 queenless? => nothing",
    # looked for, not found: "to rule out", "watch for"
    "watch 9 for swarm cells => nothing",
    "check 9 for chalkbrood friday => inspection colonies=9 state=planned on=2026-06-12",
    # past
    "9 had chalkbrood last spring => inspection colonies=9 on=2026-03-01 on_until=2026-05-31 signs=chalkbrood",
    "9 has a history of chalkbrood => nothing",
    # another's
    "the neighbour's hive swarmed => nothing",
    # told by another
    "Dov says 9 is hot => inspection colonies=9 temper=hot",
    "Dov says he pulled the amitraz strips from 9 tuesday"
    " => treatment colonies=9 on=2026-06-09 step=out agent=amitraz form=strip",
]
# Not yet right. This list may only shrink: a test fails as soon as one of them passes.
KNOWN_FAILURES: frozenset[str] = frozenset()
ALL = [*NEGEX, *NOT_DONE, *CONTEXT]


def known(example: str) -> list[pytest.MarkDecorator]:
    if split_example(example)[0] in KNOWN_FAILURES:
        return [pytest.mark.xfail(strict=True, reason="in KNOWN_FAILURES")]
    return []


@pytest.mark.parametrize("example", [pytest.param(x, id=split_example(x)[0], marks=known(x)) for x in ALL])
def test_cue_and_reach(example: str) -> None:
    said, wanted = split_example(example)
    differs = what_differs(wanted, records_of(said))
    assert not differs, f"{said}\n{differs}"


def test_known_failures_are_still_examples() -> None:
    assert {split_example(x)[0] for x in ALL} >= KNOWN_FAILURES
