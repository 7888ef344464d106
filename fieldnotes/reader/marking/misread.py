"""Phrases of the grammar that would take a number, or a word, of what stands outside them."""

from __future__ import annotations

from fieldnotes.reader.grammar import grammar, listed
from fieldnotes.reader.hear import speech
from fieldnotes.reader.mark import DRIEST, WAYS, WETTEST
from fieldnotes.reader.marking.atoms import Atoms, is_number
from fieldnotes.reader.marking.spoken import UNIT_WORDS

_AFTER_ALL = listed("all_of_them") | {"\n", "\n\n"}
_AFTER_MIGHT = frozenset(grammar().tables["might"]["after"])
_NONE_OF = listed("none_of")
_CHECKED_THEN = frozenset("winter spring summer autumn fall yearly monthly weekly morning evening final".split())
_CUPS = frozenset(["cup", "cups"])
_CELL_WORDS = listed("cells_of_a_swarm")
_OVER_ENDS = frozenset([",", ".", "!", "\n", "\n\n", "um", "uh", "and", "okay", "next"])
_SAMPLES = listed("a_sample")
_NOT_SAMPLED = listed("not_sampled")
_WHOSE = frozenset("the my our your all some those out up down".split())
_LAID = frozenset("worker workers walkers drone drones only nothing all eggs on in around low under".split())
_EACH = frozenset(["every", "each", "per", "a", "single", "all"])
_ALSO_NOUNS = listed("also_nouns")
_SUPERLATIVES = frozenset("best strongest biggest worst weakest heaviest lightest calmest nicest".split())
_CHECKED_THINGS = frozenset("fondant feed feeder syrup candy super sugar".split())
_BEFORE_DAYLIGHT = frozenset("the some enough more good bad last day no".split())
_HIVES = frozenset("one ones hive hives colony colonies nuc nucs".split())
_QUEEN_THINGS = frozenset("excluder excluders cage cages clip clips marker pen".split())
_FINE = frozenset(["ok", "okay", "fine", "good", "heavy", "got", "k", "and"])
_NEEDED = (["needed"], ["given"], ["required"], ["yet"])
_OF_QUEENS = frozenset(["queen_work", "fact", "queen_noun"])
_OF_THE_BANK = frozenset("has had holds is was needs looks got".split())
_OF_MITES = frozenset(
    "wash washes roll rolls check checks count counts test tests load loads board boards drop".split()
)
_OF_CHECKS = _OF_MITES | frozenset("washed rolled washing rolling mite mites boards counted co2 varroa".split())
_GIVEN = frozenset("strips strip pads pad supers super sponges patties feeders wafers excluders cells".split())
_FIRST_YEAR = 1900
"""A number of queens from here on is the year they are of."""
_ONE_THING = frozenset(
    "of more super strip pad tray queen q swarm cell box frame feeder deep supersedure patty".split()
)
_SO_MUCH = listed("too_much") | frozenset("weak calm nice good healthy low mild busy heavy light".split())
_WARM = 15
"""No day with a lower figure, of either scale, is called hot or warm."""
_PLACES = frozenset(["at", "from", "off", "near"])
_SAID_OF_HIVES = listed("one_hive")
_AFTER_DEGREES = frozenset([",", ".", ";", ")", "and", "but", "degrees", "out", "today", "when", "by", "at", "now"])
_KINDS_OF_BROOD = frozenset(["capped", "sealed", "open"])
_MOST_SAME = 12
"""The most colonies that are spoken of together as "same four"."""
_CAN_BE_MISREAD = frozenset(
    (
        "every filler change queen_work amount fact temp mites harvest method clean pronoun cue each hives rest verb "
        "moisture feed queen_noun sample again agent item ratio heading"
    ).split()
)
"""The labels that the questions of `misread` below are asked of."""


_IS = frozenset("is it's its was looks feels pretty really still too she's seems".split())
_TAKEN = frozenset("taken pulled harvested extracted came off collected".split())
_TOOK = frozenset("took pulled harvested got take pull taking pulling extracted gave made yielded".split())
_NOTHING_SO = frozenset("bad serious major special terrible awful crazy drastic alarming unusual".split())
_LEAVES = frozenset(["run", "go", "fly", "dash", "scoot"])
_MUST = frozenset("gotta got have need better must i we i've we've should oughta".split())
_LEFT_OFF = frozenset(", . ! \n \n\n um uh and so but now phone dinner rain truck it's its kids talk later bye".split())
"""What follows where somebody has to leave, and names no job."""
_MOST_CELLS = 40
"""More queen cells than this are set out in no one place."""
_VEHICLES = frozenset("truck truck's trailer van tank trunk shed bucket drum".split())
_SMALL = 4
"""So many dead mice may be counted in one hive; a higher number is the hive's."""


_OF_ONE_HIVE = frozenset(
    "degrees days percent is has was had through thru hot dead queenless robbed weak light heavy empty swarmed".split()
)


def _begins_with_number(atoms: Atoms, i: int, j: int) -> bool:
    """ "one gram all | thirty eight degrees", "escapes off all | six hot": whether the number behind "all" begins what
    is told next."""
    after = atoms.w[j] if j < len(atoms.w) else ""
    if after not in _OF_ONE_HIVE:
        return False
    return after in ("degrees", "days") or (bool(i) and atoms.w[i - 1] in WAYS and atoms.v[j - 1] is not None)


def _died_of_it(atoms: Atoms, i: int, j: int) -> bool:
    """Whether "dead" is said of the colony before it, not of the mice that are named after it."""
    before = atoms.w[i - 1]
    if before != "{colony}" and not is_number(before):
        return False
    after = atoms.w[j : j + 2]
    if after[:1] == ["in"]:
        return after[1:] in (["it"], ["there"])
    if after[:1] in (["on"], ["under"], ["at"], ["outside"]):
        return False
    return before == "{colony}" or atoms.v[i - 1] is None or atoms.v[i - 1].value > _SMALL


def _how_it_stands(after: list[str]) -> bool:
    """Whether what follows "still in" tells in what or on which a hive is, and not what is in it."""
    if after[:1] in (["a"], ["one"], ["single"], ["singles"], ["two"]):
        return True
    return after[:1] in (["the"], ["its"], ["their"]) and after[1:] in (
        ["honey"],
        ["shop"],
        ["truck"],
        ["barn"],
        ["first"],
        ["second"],
        ["third"],
        ["old"],
        ["same"],
    )


_ENDS_IN_GONE: tuple[list[str], ...] = ([], [","], ["."], [";"], ["!"], ["\n"], ["\n\n"], ["and"], ["um"], ["so"])


def misread(atoms: Atoms, i: int, j: int, label: str) -> bool:
    """Whether the phrase i..j-1 takes a number that belongs to the words outside it.

    "hive 4 | mites", "2 pads each | hive 7": a number just after a hive word is the hive's.
    """
    before = atoms.w[i - 1] if i else ""
    if (
        is_number(atoms.w[i])
        and not (label in ("unit", "amount", "ratio", "days") and i > 1 and atoms.w[i - 2] in _EACH)
        and before in ("hive", "colony", "number", "#", "hives", "colonies")
    ):
        if before in ("hive", "colony") and i > 1 and atoms.w[i - 2] in _SUPERLATIVES and j > i + 1 and label == "fact":
            return False  # "seventy is your best hive | eleven frames of brood"
        if before in ("hives", "colonies") and label in ("temp", "unit", "amount"):
            return False  # "guards off all hives | fifty two degrees", "all the hives | two gram each"
        return not (before in ("hives", "colonies") and i > 1 and is_number(atoms.w[i - 2]))
    if (
        label == "cue"
        and j < len(atoms.w)
        and atoms.w[i : i + 1] == ["still"]
        and atoms.w[j - 1] in ("one", "both", "couple")
    ):
        return atoms.w[j] in speech().counted or atoms.w[j] in _ONE_THING  # "still has both supers"
    if label == "sample" and is_number(atoms.w[i]) and j > i + 1 and atoms.w[i + 1] in _CUPS:
        return bool(atoms.v[i].value > 1)  # "two cups of sugar": no part of a cup
    if label == "days" and atoms.w[j - 1] == "d" and (j == i + 1 or (j < len(atoms.w) and is_number(atoms.w[j]))):
        return True  # "2 d four": a colony's letter
    if label == "change" and atoms.w[i:j] == ["'s", "gone"] and atoms.w[j : j + 1] not in _ENDS_IN_GONE:
        return True  # "nineteen's gone queenless": what became of it
    if label == "change" and atoms.w[j - 1 : j + 1] == ["dead", "but"] and "looks" in atoms.w[max(0, i - 1) : j]:
        return True  # "48 looks dead but a few bees are flying"
    if label == "cue" and i and is_number(before) and atoms.w[i:j] in (["is", "the"], ["was", "the"]):
        return True  # "seventy five is the one that swarmed"
    if label == "cue" and before == "this" and atoms.w[i:j] == ["is", "{person}"]:
        return True  # "this is Ines, I'm at the pond": who speaks, and no question
    if label == "verb" and atoms.w[i:j] == ["check"] and before in _CHECKED_THEN:
        return True  # "Winter check, Millpond": a heading, and nothing to do
    if label == "fact" and atoms.w[j - 1] == "queen" and "no" in atoms.w[i:j] and atoms.w[j : j + 1] == ["cells"]:
        return True  # "has no queen | cells"
    if label == "fact" and atoms.w[j - 1] == "honey" and "no" in atoms.w[i:j]:
        taken = atoms.w[j : j + 1] and atoms.w[j] in _TAKEN
        if taken or before in _TOOK:
            return True  # "no honey | taken", "took no | honey from nine"
    if label == "feed" and atoms.w[i] in ("light", "heavy") and before in _IS:
        return True  # "four is light | syrup on five"
    if label == "amount" and atoms.w[j - 1] == "#" and atoms.e[j - 2] < atoms.s[j - 1]:
        return j < len(atoms.w) and is_number(atoms.w[j]) and atoms.e[j - 1] == atoms.s[j]  # "3 mites #5 0 mites"
    if label == "cue" and atoms.w[i:j] in (["still", "in"], ["still", "on"]) and _how_it_stands(atoms.w[j : j + 2]):
        return True  # "ten is still in a single", "still on the first one"
    if j < len(atoms.w) and atoms.w[j] == "'s" and label == "queen_work" and is_number(atoms.w[j - 1]):
        return True  # "caged 44 | 's queen"
    if label == "queen_noun" and is_number(atoms.w[i]) and before == "to" and i > 1 and is_number(atoms.w[i - 2]):
        return "cell" not in atoms.w[j - 1]  # "1 to 12 | queens all released"
    if label == "queen_work" and is_number(atoms.w[i]) and before in ("to", "into") and atoms.v[i] is not None:
        if atoms.v[i].value > _MOST_CELLS:
            return True  # "forty two split to sixty three | queen cell in sixty three"
    if label == "queen_work" and atoms.w[i:j] == ["bank"] and i > 1 and atoms.w[i - 2] in _PLACES:
        return True  # "nineteen supers at snow bank": a place that the roster does not know
    if (
        label == "fact"
        and atoms.w[j - 1] == "honey"
        and atoms.w[j : j + 1] in (["super"], ["supers"], ["box"], ["boxes"])
    ):
        return True  # "no | honey supers came off"
    if label == "fact" and before == "no" and atoms.w[i] == "bees" and is_number(atoms.w[j - 1]):
        return True  # "forty four dead no bees | fifty heavy"
    if label == "fact" and j - 1 > i and atoms.w[j - 2] == "bees" and is_number(atoms.w[j - 1]) and j < len(atoms.w):
        if atoms.w[j] in _SAID_OF_HIVES or atoms.w[j].endswith("n't"):
            return True  # "dead out front a pile of bees | seventy nine got a mouse guard"
    if label == "fact" and atoms.w[j - 1] in _KINDS_OF_BROOD and j - i > 2 and atoms.w[j - 2] in ("cell", "cells"):
        if atoms.w[j : j + 1] in (["brood"], ["brewed"]):
            return True  # "six swarm cells | capped brood and no eggs"
    if label == "fact" and before == "a" and i > 1 and atoms.w[i - 2].startswith("introduc"):
        return True  # "introduce a | queen in there"
    if label == "fact" and i and atoms.w[i] == "dead" and _died_of_it(atoms, i, j):
        return True  # "fifty one dead | mice in it"
    if label in _OF_QUEENS and atoms.w[j - 1] == "queen" and j < len(atoms.w) and atoms.w[j] in _QUEEN_THINGS:
        return True  # "put the | queen excluder back on", "has got a | queen excluder"
    if label == "fact" and atoms.w[i:j] == ["no", "feed"] and (before in _FINE or atoms.w[j : j + 1] in _NEEDED):
        return True  # "74-79 ok | no feed", "no feed needed"
    if label == "same" and atoms.w[j - 1] == "did" and atoms.w[j : j + 1] == ["not"]:
        return True  # "escapes are off three | so did not put pads in"
    if label == "sample" and atoms.w[j - 1] == "full" and atoms.w[j : j + 1] == ["cup"]:
        return True  # "had zero half cup | full cup alcohol wash on nine"
    if label == "clean" and atoms.w[i:j] == ["nothing"] and j < len(atoms.w) and atoms.w[j] in _NOTHING_SO:
        return True  # "ants in the lids, nothing bad"
    if label == "cue" and atoms.w[i] in ("said", "says", "told") and atoms.w[j - 1].endswith("'d") and j < len(atoms.w):
        return atoms.w[j].endswith("ed") or atoms.w[j] in _HAD_DONE  # "Marit said she'd | pulled the strips"
    if label == "cue" and atoms.w[j - 1] == "owe":
        follows = atoms.w[j] if j < len(atoms.w) else ""
        return not (is_number(follows) or follows in _OWED)  # "I owe every hive a patty", but "I owe you all a story"
    if label == "fact" and atoms.w[j - 1] == "empty" and (before in _VEHICLES or "truck" in atoms.w[i:j]):
        return True  # "that's the truck empty"
    if label == "fact" and atoms.w[i:j] == ["empty"] and before == "an":
        return True  # "put an | empty under the escape": a box
    if label == "moisture" and is_number(atoms.w[i]) and is_number(atoms.w[i + 1]):
        return not DRIEST <= atoms.v[i].value <= WETTEST  # "honey out of 71 | sixteen point eight on the meter"
    if label == "thing" and atoms.w[i] == "the" and is_number(atoms.w[j - 1]):
        placed = j + 1 < len(atoms.w) and atoms.w[j] in _PLACED and is_number(atoms.w[j + 1])
        return not placed and atoms.w[j + 1 : j + 2] != ["{colony}"]  # "the one | that swarmed", but "the one on 11"
    if label not in _CAN_BE_MISREAD:
        return False
    if label == "filler" and j < len(atoms.w) and atoms.w[j - 1] in _LEAVES and atoms.w[j] not in _LEFT_OFF:
        return atoms.w[i] in _MUST  # "gotta run | the extractor": a job
    if label == "every" and j == i + 1 and atoms.w[i] == "all":
        return before in ("after", "at", "above", "once") or (j < len(atoms.w) and atoms.w[j] not in _AFTER_ALL)
    if (
        label == "pronoun"
        and atoms.w[i] == "all"
        and is_number(atoms.w[j - 1])
        and (atoms.w[j : j + 1] in (["mites"], ["mite"]) or _begins_with_number(atoms, i, j))
    ):
        return True  # "co2 tests on 1, 2 and 3, all 4 mites"
    if label == "filler" and j == i + 1 and atoms.w[i] == "over":
        return j < len(atoms.w) and atoms.w[j] not in _OVER_ENDS  # "over three percent", "over the landing board"
    if (
        label == "filler"
        and is_number(atoms.w[j - 1])
        and "makes" in atoms.w[i:j]
        and j < len(atoms.w)
        and atoms.w[j] in speech().counted
    ):
        return True  # "and that makes six | supers on four"
    if label == "change" and (atoms.w[j - 1] == "ones" or atoms.w[j : j + 1] in (["ones"], ["bees"])):
        if not {"landing", "front", "porch", "bottom", "entrance", "board", "floor"}.isdisjoint(atoms.w[j : j + 5]):
            return True  # "twelve dead ones on the landing board": bees
    if label == "change" and atoms.w[j - 1] in ("swarm", "swarms") and j < len(atoms.w) and atoms.w[j] in _CELL_WORDS:
        return True  # "got 3 swarm | cells"
    if label == "agent" and atoms.w[i] == "time":
        return before in _WHICH_TIME  # "third and last | time all ten hives"
    if (
        label in ("queen_work", "queen_noun")
        and "cells" in atoms.w[i:j]
        and not _FORKED.isdisjoint(atoms.w[max(0, i - 4) : i])
    ):
        return True  # "forked about | fifty cells in nine"
    if label in ("queen_noun", "fact", "queen_work") and before == "of" and i > 1 and atoms.w[i - 2] == "out":
        if "cells" in atoms.w[i:j]:
            return True  # "four mites out of a hundred | cells"
    if label == "again" and "repeat" in atoms.w[i:j]:
        return j == len(atoms.w) or atoms.w[j] != "{date}"  # "repeat | wash on nine"
    if label == "change":
        following = atoms.w[j] if j < len(atoms.w) else ""
        if atoms.w[j - 1] in ("dead", "died") and _no_colony(atoms, i):
            return True  # "the heater band | was dead on that one"
        if atoms.w[i] == "lost" and following in ("queen", "queens"):
            return True  # "lost two | queens this week"
        if atoms.w[i:j] == ["got", "it"] and before in ("rest", "others", "all", "both"):
            return True  # "and the rest | got it today"
        if atoms.w[i:j] == ["split"] and following in _SHARED:
            return True  # "one tub | split between them"
    if (
        label == "queen_work"
        and atoms.w[i] == "got"
        and before in ("it's", "has", "have", "'s", "they've", "she's", "still")
    ):
        return True  # "it's got queen cells"
    if label == "fact" and before == "drone" and atoms.w[i] == "brood":
        return True  # "did the drone | brood on twelve"
    if label == "fact" and atoms.w[i] == "queens" and before and is_number(before):
        return True  # "there's eleven | queens in there"
    if label == "method" and before == "of" and i > 1 and atoms.w[i - 2] in ("frame", "frames", "comb", "combs"):
        return "drone" in atoms.w[i:j]  # "pulled the frames of drone brood"
    if label == "queen_work" and atoms.w[i:j] == ["bank"]:  # "the bank has nine queens now", "all except the bank"
        return before in ("the", "our", "my", "'s", "{person}") or (j < len(atoms.w) and atoms.w[j] in _OF_THE_BANK)
    if label == "harvest" and atoms.w[i:j] == ["honey", "off"] and before == "of":
        return True  # "three supers of | honey off l four"
    if label == "harvest" and atoms.w[j - 1] == "honey" and j < len(atoms.w) and atoms.w[j] in ("super", "supers"):
        return True  # "got their | honey supers pulled"
    if label == "temp" and is_number(atoms.w[j - 1]) and j < len(atoms.w) and atoms.w[j] in speech().counted:
        return atoms.w[j] not in ("percent", "each", "day", "days")  # "moisture's too high | sixteen supers back on"
    if label == "queen_work" and atoms.w[i] == "new" and atoms.w[j - 1] == "in" and before in ("the", "those", "their"):
        return True  # "marked the new queens | in nine"
    if label == "verb" and before in ("the", "our", "a") and j == i + 1 and atoms.w[i] in _ALSO_NOUNS:
        return True  # "to the feed store"
    if label == "method" and j == i + 1 and not _NOT_SAMPLED.isdisjoint(atoms.w[j : j + 4]) and atoms.w[j] in _WHOSE:
        return True  # "wash the veils", "rolled my best barrel out"
    if label == "method" and atoms.w[j - 1] == "rolling" and atoms.w[j : j + 1] == ["in"] and "honey" in atoms.w[:i]:
        return True  # "the honey's rolling in"
    if (
        label == "every"
        and atoms.w[i] == "all"
        and atoms.w[j - 1] == "in"
        and before in ("pounds", "lb", "lbs", "kilos")
    ):
        return True  # "three hundred pounds all in"
    if label == "verb" and before in _CHECKED_THINGS and atoms.w[i] == "check":
        return True  # "fondant check: three has most of its slab"
    if label == "moisture" and is_number(atoms.w[j - 1]) and is_number(atoms.w[j - 2]):
        return j < len(atoms.w) and atoms.w[j] in speech().counted  # "moisture was eighteen | two supers"
    if label == "temp" and atoms.w[j - 1] == "out" and j < len(atoms.w) and atoms.w[j] == "of":
        return True  # "it was eight out | of three hundred"
    if label == "temp" and atoms.w[i] in ("cool", "cold", "warm", "hot") and j == i + 2 and is_number(atoms.w[j - 1]):
        if atoms.w[j : j + 1] in (["on"], ["each"], ["in"], ["pads"], ["strips"]):
            return True  # "while it was cool | two on seventy one"
    if label == "clean" and atoms.w[j - 1] == "clean" and atoms.w[i : i + 1] == ["a"] and j < len(atoms.w):
        return atoms.w[j] not in (
            "wash",
            "roll",
            "check",
            "count",
            "bill",
            "slate",
            "sheet",
            ",",
            ".",
        )  # "a clean | bottom board"
    if label == "fact" and atoms.w[j - 1] in ("nasty", "mean", "ornery") and j < len(atoms.w):
        if atoms.w[j] in ("wind", "storm", "cold", "weather", "rain", "cut", "fall", "surprise", "smell", "mess"):
            return True  # "with a nasty | wind"
    if label == "fact" and atoms.w[j - 1] == "laying" and j < len(atoms.w) and atoms.w[j] in _LAID:
        return True  # "l thirty is | laying workers"
    if label == "fact" and j == i + 1 and atoms.w[i] == "light" and before in _BEFORE_DAYLIGHT:
        return j == len(atoms.w) or atoms.w[j] not in _HIVES  # "before the light went"
    if label == "pronoun" and atoms.w[i] == "same" and is_number(atoms.w[j - 1]) and atoms.v[j - 1].value > _MOST_SAME:
        return True  # "forty two same | forty three has ten"
    if label == "sample" and atoms.w[j - 1] in ("bees", "bee") and is_number(atoms.w[j - 2]):
        return bool(0 < atoms.v[j - 2].value < _FEWEST)  # "8/10 bees"
    if (
        label == "pronoun"
        and atoms.w[i] == "all"
        and is_number(atoms.w[j - 1])
        and atoms.w[j : j + 1]
        and atoms.w[j] in UNIT_WORDS
    ):
        return True  # "Quarry all | 1 gal"
    if label == "item" and j == i + 1 and atoms.w[i] == "super":
        return j < len(atoms.w) and atoms.w[j] in _SO_MUCH  # "N5 is super | weak"
    if label == "verb" and atoms.w[i] == "go" and not {"cells", "cell"}.isdisjoint(atoms.w[max(0, i - 4) : i]):
        return j == i + 2 and atoms.w[i + 1] in ("into", "in")  # "the cells are to | go into N1"
    if label == "heading" and atoms.w[i:j] == ["coming", "up"] and i and j < len(atoms.w):
        return atoms.w[i - 1] in ("numbers", "counts", "results")  # "numbers coming up | L3 six"
    if label == "ratio" and j == i + 3 and all(said.isdecimal() for said in atoms.said[i:j]):
        after = atoms.w[j] if j < len(atoms.w) else ""
        return before == ":" or is_number(before) or is_number(after)  # "41 43 45 47 49: 1 0 | 1 2 1"
    if (
        label == "ratio"
        and j + 2 < len(atoms.w)
        and atoms.w[j] == ","
        and atoms.w[j + 2] == ":"
        and is_number(atoms.w[j + 1])
    ):
        return True  # "2: 1, 5: 22": two hives and their counts
    if label == "queen_work" and atoms.w[i] == "new" and before in ("introduce", "introduced", "introducing"):
        return True  # "i introduce | new q in N1"
    if label == "mites" and atoms.w[i] == "just" and not _GIVEN.isdisjoint(atoms.w[:i]):
        return _OF_CHECKS.isdisjoint(atoms.w[:i])  # "strips in four to six and seven just the one"
    if label == "filler" and before == "as" and atoms.w[i] == "well":
        return True  # "as well"
    if (
        label == "amount"
        and atoms.w[i] in UNIT_WORDS
        and (before in ("a", "half") or (before and is_number(before)))
        and not (i > 1 and atoms.w[i - 2] in ("to", ":"))  # "two to one | gallon apiece"
    ):
        return True  # "half a | gallon each"
    if (
        label in ("amount", "feed")
        and "and" in atoms.w[i:j]
        and is_number(atoms.w[j - 1])
        and atoms.v[j - 1].value >= 1
    ):
        return True  # "540 pounds and | seventeen"
    if label == "fact" and is_number(atoms.w[i]) and before in ("in", "on") and atoms.w[j - 1] in _CELL_WORDS:
        return True  # "a virgin in fifty seven | emergency cells in fifty four"
    if label == "temp" and atoms.w[i] in ("hot", "warm", "cold", "mild") and j == i + 2:
        return True  # "fifty five hot | fifty six hot"
    if (
        label == "temp" and "," in atoms.w[i:j]
    ):  # "hot today, 95" but "nine hot, | two stings", "hot out, | twelve was mean"
        return atoms.v[j - 1].value < _WARM or (j < len(atoms.w) and atoms.w[j] not in _AFTER_DEGREES)
    if (
        label == "mites"
        and atoms.w[j - 1] in ("one", "=1")
        and j < len(atoms.w)
        and (atoms.w[j] in speech().counted or atoms.w[j] in _SAMPLES)
        and atoms.w[j] not in ("mite", "each")
    ):
        return True  # "just the one super", "just the one jar"
    if (
        label == "harvest"
        and atoms.w[j - 1] == "in"
        and j < len(atoms.w)
        and atoms.w[j] in ("my", "the", "a", "his", "her")
    ):
        return True  # "honey in my hair"
    if label == "mites" and j < len(atoms.w) and atoms.w[j - 1] == "mite" and atoms.w[j] in _OF_MITES:
        return True  # "did a mite | wash on nine"
    if label == "mites" and atoms.w[j - 1] in ("might", "mights") and j < len(atoms.w) and atoms.w[j] in _AFTER_MIGHT:
        return True  # "nine might be queenless"
    if (
        label == "method"
        and before == "a"
        and i > 1
        and atoms.w[i - 2] == "on"
        and j == i + 1
        and atoms.w[i] in ("roll", "rolls")
    ):
        # "on a roll today"; but "nine had two mites on a roll"
        return not any(is_number(x) or x in _COUNTED_BEFORE for x in atoms.w[max(0, i - 8) : i - 2])
    if (
        label == "clean"
        and atoms.w[i] == "zip"
        and j < len(atoms.w)
        and atoms.w[j] in ("tie", "ties", "lock", "bag", "bags")
    ):
        return True
    if label == "mites" and atoms.w[i] == "counted" and is_number(atoms.w[j - 1]) and j + 1 < len(atoms.w):
        return atoms.w[j] in ("had", "has", "got", "was") and is_number(
            atoms.w[j + 1]
        )  # "and counted | seventy had six"
    if label == "pronoun" and any(is_number(atoms.w[k]) and atoms.v[k].value == 0 for k in range(i, j)):
        return True  # "all zero"
    if label == "fact" and atoms.w[i : i + 3] == ["dead", "mouse", "nest"]:
        return True  # "fifteen dead | mouse nest in it"
    if label == "fact" and atoms.w[i] == "bees" and before and is_number(before):
        # "300 bees | 1 mite"; but "seventy one | bees on seven"
        return not (atoms.w[i + 1] in ("on", "over", "across", "covering") and is_number(atoms.w[j - 1]))
    if label == "queen_noun" and is_number(atoms.w[i]) and before in ("through", "thru") and is_number(atoms.w[i - 2]):
        return True  # "seventy through seventy five | queens released"
    if label == "queen_noun" and is_number(atoms.w[i]) and atoms.v[i].value >= _FIRST_YEAR:
        return True  # "she's a two thousand twenty five | queen"
    if label == "fact" and is_number(atoms.w[i]) and atoms.v[i].value > 30:
        return True  # "no queen that I saw seventy two | swarm cells"
    if label == "fact" and atoms.w[i] == "dead" and before in ("is", "are", "was", "were", "'s"):
        return True  # "l thirty is dead | mouse nest in the bottom"
    if (
        label == "cue"
        and atoms.w[i:j] == ["bar"]
        and before in ("a", "the", "my", "pry", "crow", "steel", "top", "long")
    ):
        return True  # "bring the pry | bar"
    last = atoms.w[j - 1]
    if label == "cue" and last == "no" and j > i + 1 and j < len(atoms.w) and atoms.w[j] in _NONE_OF:
        return True  # "reducers on both um | no flow at all"
    if (
        label in ("each", "every", "hives", "pronoun", "rest")
        and last in ("hive", "colony", "nuc")
        and j < len(atoms.w)
    ):
        if (
            is_number(atoms.w[j])
            and j + 1 < len(atoms.w)
            and atoms.w[j + 1] in speech().counted
            and atoms.w[j + 1] not in ("mite", "mites")
        ):
            return False  # "every hive | two strips each"
        if (
            label in ("each", "every")
            and atoms.w[j - 2 : j - 1] != ["each"]
            and is_number(atoms.w[j])
            and j + 1 < len(atoms.w)
            and atoms.w[j + 1] in ("came", "had", "has", "was", "is", "got", "gave")
        ):
            return False  # "half a cup per hive | seventy came up with two"
        if label == "each" and atoms.w[i] in ("a", "per", "to") and (is_number(before) or before in speech().counted):
            return False  # "two strips a hive | forty through fifty eight"
        return is_number(atoms.w[j]) or atoms.w[j] == "{colony}"
    return False


_OWED = frozenset(["{colony}", "every", "them", "it", "hive"])
_PLACED = frozenset(["on", "in", "off", "from"])
_HAD_DONE = frozenset(
    "been done had seen taken given got gotten gone made found lost left put set just already".split()
)
_COUNTED_BEFORE = frozenset(["mites", "mite", "clean", "nothing", "{colony}"])
_WHICH_TIME = frozenset("last first second third fourth next this each every same long one final a the any".split())
_FORKED = frozenset("forked forking uncapped uncapping opened scratched".split())
_SHARED = frozenset("between among amongst evenly across equally up".split())
_OWNED = frozenset("the my his our their".split())
_BEFORE_DEAD = frozenset("is was 's were are".split())
_COLONY_WORDS = listed("called_a_colony")


def _no_colony(atoms: Atoms, i: int) -> bool:
    """Whether the plain name of a thing that is no colony stands right before, with "the" or whose it is."""
    k = i - 1 if i > 1 and atoms.w[i - 1] in _BEFORE_DEAD else i
    name = atoms.w[k - 1] if k > 1 else ""
    if not name.isalpha() or len(name) < _LEAST_NAME or name in _COLONY_WORDS:
        return False
    return atoms.w[k - 2] in _OWNED or (k > 2 and atoms.w[k - 3] in _OWNED and atoms.w[k - 2].isalpha())


_LEAST_NAME = 3


_FEWEST = 50
"""Fewer bees than this are no sample."""
