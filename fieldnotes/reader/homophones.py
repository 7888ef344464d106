"""Words that sound like numbers: "forty to", "hive for", "n won", "had to mites".

Such a word is a number only where a number is due; elsewhere it stays itself ("for fifteen", "to the
quarry", "won't"). Each rule below names one such place.
"""

from __future__ import annotations

from collections.abc import Mapping
from functools import lru_cache

from fieldnotes.reader.grammar import grammar, listed, meanings
from fieldnotes.reader.numbers import is_number_word, number_at

_HANDED_OUT = frozenset(meanings("measures")) | {"box", "super", "pad", "strip", "half", "drone", "virgin"}
HIVE_WORDS = listed("before_colonies")
_STOPS = frozenset([".", ";", "!", "?", ",", "\n", "\n\n"])
_MITES = frozenset(["mites", "mite", "varroa"])
_VALUE_VERBS = listed("count_due")
_AFTER_VALUE = listed("after_a_count")
_NOT_NUMBER_AFTER = listed("no_number_before")
_NOT_TWO_BEFORE = listed("no_two_after")
_THAT_WAS = (["which", "is"], ["which", "was"], ["that", "was"], ["that", "had"], ["that", "is"], ["that", "got"])
_COMES = frozenset(["came", "come", "comes"])
_PLURALS = listed("things_counted")
_OVER = frozenset(["um", "uh", "er", "and", "then", "so", "oh", "okay", ""])
_NO_HIVE = frozenset("oh um uh so then but".split())
"""What goes on after a count, and can not follow "to" or "for" themselves."""
_AT_ALL = frozenset("least most all once about any a last present".split())
_ONLY_SOUNDS = listed("hardly_themselves")
_BEFORE_SOUNDS = frozenset("in on at and or to two through with under from of up was had got is".split())


@lru_cache(maxsize=1)
def _tables() -> tuple[dict[str, str], dict[str, str], frozenset[str], dict[str, int], frozenset[str]]:
    from fieldnotes.reader.hear import speech

    tables = grammar().tables
    return tables["homophones"], tables["letters"], speech().counted, tables["tens"], frozenset(tables["ordinals"])


def numbers_by_ear(
    w: list[str],
    letters: set[str],
    ids: Mapping[str, tuple[str, ...]],
    taught: frozenset[str] = frozenset(),
    places: Mapping[str, list[list[str]]] | None = None,
) -> None:
    """Changes `w` in place.

    `letters` are the letters (lower case) of the roster's colony ids, `ids` the yards in which each id stands, `taught`
    the outfit's own words for treatments, `places` the names of its yards by their first words.
    """
    homophones, spelled, counted, tens, _ = _tables()
    n = len(w)
    for i, word in enumerate(w):
        if word not in homophones:
            continue
        meant = homophones[word]
        before = w[i - 1] if i else ""
        after = w[i + 1] if i + 1 < n else "\n"
        tenths = before == "point" and i > 1 and is_number_word(w[i - 2])  # "eighteen point to the quarry made one"
        to_places = places.get(after, ()) if places and word in ("to", "for") and not tenths else ()
        if any(w[i + 1 : i + 1 + len(x)] == x for x in to_places):
            continue  # "moved from Heath to Mill Lane"
        if word == "for" and after in _MITES and "what" in w[max(0, i - 4) : i]:
            continue  # "this is what i got for mites at the quarry"
        plain = True if _of_taught(w, i, word, taught) else _plainly(w, i, word, before, after, letters)
        if plain is not None:
            due = plain
        elif word == "oh":
            due = (before in HIVE_WORDS or _is_letter(before, i, letters, spelled)) and not is_number_word(after)
        elif before in tens and not (after in _PLURALS and is_number_word(before) and word in ("to", "too")):
            due = _after_tens(w, i, word, after, ids)
        elif word == "to" and before.isdigit() and after == before and _counting(w, i):
            due = True  # "soap wash 51 none 52 to 52 gets pads"
        elif word in ("won", "for", "ate") and before.isdigit() and after.isdigit() and _counting(w, i):
            due = w[i + 2 : i + 3] == [] or w[i + 2] not in _SO_LONG  # "soap wash 70 won 72 for 75 none"
        elif before in ("hives", "colonies") and word == "to" and (is_number_word(after) or _more_numbers(w, i + 1)):
            due = True  # "hives to five seven eight", "hives to for six and ten"
        elif word in ("for", "ate") and i > 1 and w[i - 2] in ("hives", "colonies") and is_number_word(after):
            due = is_number_word(before)
        elif word in ("to", "for") and after in counted and after.endswith("s") and _ends_place(w, i, places):
            due = True  # "quarry for buckets"
        elif word in ("to", "too", "for") and after == "hundred":
            due = True  # "to hundred grams"; a range would go to "a hundred"
        elif before == "hundred" or (before == "and" and i > 1 and w[i - 2] == "hundred"):
            due = word in ("to", "too", "for", "ate", "won") and after not in _NOT_NUMBER_AFTER - {"which", "that"}
            due = due and not (
                word == "for" and before == "hundred" and after in HIVE_WORDS
            )  # "twelve out of three hundred for hive two"
        elif word == "ate" and is_number_word(before) and before != "one":
            due = after not in ("the", "all", "its", "it", "up", "through", "that", "most", "every", "my", "our")
        elif word == "ate" and (after == "or" or (before in letters and _is_letter(before, i, letters, spelled))):
            due = True  # "out of l ate the strips came out of l nine"
        elif before == "point":
            due = True  # "seventeen point to"
        elif word == "for" and is_number_word(before) and after == "and" and i + 2 < n and is_number_word(w[i + 2]):
            due = True  # "on three for and nine"
        elif before == "got" and word == "to" and after in _PLURALS:
            due = True
        elif word == "for" and after == "days" and (before == "in" or w[i + 2 : i + 3] in (["in"], ["under"])):
            due = True  # "boards for days in", "boards in for days"
        elif (
            word in ("for", "to")
            and after in ("hives", "colonies")
            and (before in _OVER or before in _STOPS)
            and w[i + 2 : i + 3] in (["left"], ["got"], ["are"], ["were"], ["still"], ["didn't"], ["have"], ["need"])
        ):
            due = True  # "um for hives left"
        elif word in ("for", "to") and after == "at" and w[i + 2 : i + 3] and w[i + 2] not in _AT_ALL:
            due = True  # "lost for at larks, to at the quarry"
        elif word == "for" and w[i + 1 : i + 4] == ["to", "a", "hive"]:
            due = True  # "for to a hive"
        elif word == "to" and before in ("for", "four") and w[i + 1 : i + 3] == ["a", "hive"]:
            due = False
        elif (
            before == "and"
            and i > 1
            and is_number_word(w[i - 2])
            and after in ("get", "gets", "are", "have", "need", "both", "were")
        ):
            due = word in ("to", "too", "for", "ate")  # "three and for get a gallon"
        elif (before in HIVE_WORDS or _is_letter(before, i, letters, spelled)) and w[i + 1 : i + 3] in _THAT_WAS:
            due = True  # "s for that was six"
        elif (
            after in ("a", "half")
            and _is_letter(before, i, letters, spelled)
            and before in letters
            and w[i + 2 : i + 3]
            and w[i + 2] in _HANDED_OUT
        ):
            due = True  # "n to a jar of the same", "n to a drone layer"
        elif (
            before == "hive" and i > 1 and w[i - 2] in ("a", "per", "every") and word == "for" and is_number_word(after)
        ):
            due = False  # "one strip a hive for forty two days"
        elif (
            word == "for"
            and after == "and"
            and w[i + 2 : i + 4] == ["a", "half"]
            and w[i + 4 : i + 5]
            and w[i + 4] in counted
        ):
            due = True  # "for and a half frames of brood"
        elif word == "for" and before == "and" and w[i + 1 : i + 4] == ["in", "that", "order"]:
            due = True
        elif (
            word == "for"
            and after in _MITES
            and _counting(w, i)
            and i + 2 < n
            and (w[i + 2] in HIVE_WORDS | letters or w[i + 2] in ("um", "and", "then"))
        ):
            due = True  # "forked drone brood on hive six at the pond, for mites, hive nine …"
        elif before == "hive" and word != "won" and after in _DONE_AT and (i < 2 or w[i - 2] not in _ONE_HIVE_OF):
            due = True  # "hive to put a super on"; but "a hive to put the swarm in"
        elif before == "hive" and word == "to" and i > 1 and w[i - 2] in _SOME_HIVE:
            due = False  # "sold a hive to Tobiah's cousin"
        elif before in HIVE_WORDS or _is_letter(before, i, letters, spelled):
            many = after == "a" and w[i + 2 : i + 3] in (["hundred"], ["dozen"])  # "hive to a hundred and four"
            due = (after not in _NOT_NUMBER_AFTER or many) and not (
                before not in ("hive", "number", "#")
                and before in HIVE_WORDS
                and word in ("to", "for")
                and not (before == "colony" and after in _VALUE_VERBS)
            )
        elif (before in ("to", "at") and i > 1 and w[i - 2] in _COMES | {"up", "out"}) or (
            after == "or"
            and i + 2 < n
            and (is_number_word(w[i + 2]) or w[i + 2] in homophones)
            and (_value_due(w, i) or _hive_before(w, i, letters))
        ):
            due = True
        elif _subject_of_count(w, i, before, after, homophones):
            due = True  # "to had won": hive two had one
        elif word in ("to", "too") and after in counted and after in _PLURALS and is_number_word(before):
            due = True  # "l twelve to pads each"
        elif word in ("to", "too") and after in HIVE_WORDS and not after.endswith("s") and not _value_due(w, i):
            due = False  # "didn't get to hive sixty"
        elif (
            before == "and"
            and after == "at"
            and word in ("to", "too")
            and any(is_number_word(x) for x in w[max(0, i - 7) : i])
        ):
            due = True  # "lost five at cut bank and to at wens"
        elif word in ("to", "too", "for", "won") and after in _MITES and _hive_before(w, i, letters):
            due = word != "for" or not _looked_for(w, i)  # "s one to mites", but "test hive four for mites"
        elif (
            word in ("to", "too", "for", "won")
            and _hive_before(w, i, letters)
            and (word != "too" or _counting(w, i))
            and _counts_before_hive(w, i, word, letters)
        ):
            due = True  # "hive sixteen for hive two zero"
        elif _each_got(w, i, word, before, after) or _put_in(w, i, before, after, counted):
            due = True
        elif word in ("to", "for") and after in _NO_HIVE and _counting(w, i) and _hive_before(w, i, letters):
            due = True  # "n four one n five to oh and I caught the queen"
        elif word in ("to", "for") and after in _STOPS and _hive_before(w, i, letters) is not None:
            due = True  # the last words: "l eight five mites l twelve to"
        elif before == "valid" or is_number_word(before):
            due = False  # "flu valid ate", "two to a hive"
        elif before in ("need", "needs") and (
            (after in counted and after.endswith("s"))
            or (after in _BEFORE_THINGS and i + 2 < n and w[i + 2] in _PLURALS)  # "needs to mouse guards"
        ):
            due = word in ("to", "for")
        elif (
            after == "and"
            and w[i + 2 : i + 4] == ["a", "half"]
            and before in ("out", "at", "to", "came", "had", "got", "was", "is")
        ):
            due = True
        elif word in ("to", "too", "for", "won", "ate", "tree", "free", "tin") and _value_due(w, i):
            due = _ends_value(w, i, word, before, after, letters, homophones) or (
                after in counted and after not in ("mite", "each") and _before_counted(word, before, after)
            )
        elif after in counted:
            due = _before_counted(word, before, after)
        elif before == "or" and i > 1 and is_number_word(w[i - 2]) and word in ("to", "too", "for", "ate"):
            due = _ends_value(w, i, word, before, after, letters, homophones)  # "three or for so"
        elif word in _ONLY_SOUNDS:
            due = (before in _BEFORE_SOUNDS and after not in _NOT_NUMBER_AFTER) or (
                before.endswith("ed") and is_number_word(after)  # "rolled ate ten and twelve"
            )
        elif word in ("to", "too"):
            due = _two_of(w, i, before, after)
        else:
            due = False
        if due:
            w[i] = meant


_ABOUT_TO = frozenset("swarm die starve hatch emerge leave abscond go fall supersede requeen".split())
_SMALL = frozenset(["to", "too", "for"])
_SPEAKERS = frozenset("i i'll i'm i've we we'll we're he's she's".split())
_AFTER_ROUND = frozenset("in on at done is and of went goes now this last yesterday today".split())
_AFTER_LOST = frozenset("at in and um uh over this last so then".split())
_WHICH_HIVE = frozenset("is was has had are died isn't wasn't".split())
_CELL_KINDS = listed("kinds_of_cells")
_BEFORE_THINGS = listed("words_before_things")
_CELLS = frozenset("cell cells sell sells".split())


_NEVER = frozenset("never not didn't haven't hasn't don't couldn't barely".split())


def _fourth_in_row(w: list[str], i: int) -> bool:
    """Whether the hive named before "hive for" is the third."""
    for k in range(i - 2, max(-1, i - 40), -1):
        if w[k] in HIVE_WORDS:
            named = number_at(w, k + 1)
            return named is not None and named.value == 3
    return False


def _plainly(w: list[str], i: int, word: str, before: str, after: str, letters: set[str]) -> bool | None:
    """Places where "to" or "for" can only be a number, or can not; None where the other rules decide."""
    third = w[i + 2] if i + 2 < len(w) else ""
    if word in ("to", "too") and after in ("is", "isn't") and third in ("out", "in", "off", "on", "done", "still"):
        return before in ("out", "in", "off", "on", "done", "yet", "and")  # "one is out, to is out"
    if word == "won" and (after in ("each", "apiece") or before in ("into", "onto", "with")):
        return True  # "got won each", "combine nine into won"
    if word == "won" and (after in ("no", "wait", "sorry", "nope") or (after == "i" and third in ("mean", "meant"))):
        return True  # "a strip in every hive, won, I mean two"
    if word == "won" and before == "to" and i > 1 and w[i - 2] in ("two", "one"):
        return True  # "two to won" syrup
    if word == "ate" and after == "and" and w[i + 2 : i + 4] == ["a", "half"]:
        return True  # "ate and a half frames of brood"
    if word == "won" and after in _COUNTED_ONE and third in ("each", "apiece", "a", "per", "on", "in"):
        return True  # "won strip each", "won super on l one"
    if word == "won" and after in _CELL_KINDS and third in _CELLS:
        return True  # "won swarm cell"
    if word == "won" and after in _COUNTED_ONE and is_number_word(before):
        return True  # "l one half a gallon l two won gallon"
    if word == "won" and after == "more" and third in _tables()[2] | _BEFORE_THINGS | {"brood", "brewed"}:
        return True  # "put won more super on"
    if word in ("for", "ate") and before in ("through", "thru") and i > 1 and is_number_word(w[i - 2]):
        return True  # "hives one through for"
    if word not in _SMALL:
        return None
    if word == "for" and after in ("now", "sure", "good") and (third in _OVER or third in _STOPS):
        return False  # "excluder's off l twenty for now"
    if word == "for" and after == "and" and is_number_word(third) and before not in _IS_FOR:
        return True  # "except for and nine": "for and nine" is no English
    if word == "for" and _carried_into(w, i, before):
        return True  # "um for drawn combs into sixty"
    if before == "nuc" and i > 1 and is_number_word(w[i - 2]):
        kinds = after in _CELL_KINDS and third in _CELLS
        return kinds or (after in _PLURALS and after != "hives") or None  # "n six nuke to emergency cells"
    if word == "to" and after == "of" and third in ("them", "em", "those"):
        return True  # "hive three to of them"
    if word == "to" and before == "one" and i > 1 and w[i - 2] in _tables()[4]:
        return (after in _OVER or after in _STOPS or after in letters) or None  # "first one zero second one to"
    if (
        word != "too"
        and before in ("the", "those", "these", "my", "our", "all")
        and after in _KINDS
        and third in _PLURAL_KINDS
    ):
        return True  # "banked the for spare queens"
    if word == "for" and before == "for" and after in ("days", "weeks", "hours", "nights"):
        return True  # "the board was in for for days"
    if word == "for" and after == "and" and before in _ON_HIVES and is_number_word(third):
        return True  # "candy boards go on for and eleven"
    if (
        word != "too"
        and before in letters
        and i > 1
        and w[i - 2] in _RANGES
        and after in ("get", "gets", "got", "need")
    ):
        return True  # "n one through n for get cells"
    if (
        word == "to"
        and after in ("those", "these")
        and before in _tables()[3]
        and third in ("two", "both", "come", "are")
    ):
        return True  # "every hive but forty four and sixty to, those two come out thursday"
    if word == "to" and before in letters and after in ("some", "its") and i > 1 and w[i - 2] in _GAVE:
        return True  # "gave l to some dry sugar"
    if word in ("to", "too") and after in ("mites", "mite") and is_number_word(before):
        return True  # "seventy four to mites"
    if before == "dropped" and (after in _STOPS or after == "and" or after in letters or after in HIVE_WORDS):
        return True  # "s nine dropped for and s ten only dropped to"
    if word == "to" and before == "was" and after == "point" and not _PERCENT.isdisjoint(w[i + 3 : i + 6]):
        return True  # "the test on l six was to point five percent"
    if after == "point" and word in ("for", "to") and is_number_word(third) and before not in ("at", "was"):
        return True  # "l six for point seven percent"
    if after in ("percent", "%", "per") and word == "for" and (after != "per" or third == "cent"):
        return True  # "ran for percent"
    if word == "for" and after in _PLURALS and (third in ("each", "apiece") or w[i + 2 : i + 4] in _A_HIVE):
        return True  # "oxalic vapour today for grams a hive"
    if word == "for" and before == "oh" and i > 1 and is_number_word(w[i - 2]):
        return (
            after in _AFTER_VALUE or after in letters or after in _STOPS or None
        )  # "hive eight had one oh for hive fourteen had six"
    if word == "for" and after == "days" and before in ("under", "there", "out", "in", "were", "was", "been", "sat"):
        return _checked_before(w, i) or None  # "sticky boards, they sat under there for days"
    if before in ("hives", "colonies") and word == "for" and after == "and" and is_number_word(third):
        return True  # "hives for and five are both strong"
    if before in _VALUE_VERBS and after == "no" and third in ("i", "wait", "make", "sorry", "scratch"):
        return True  # "l six had for no i mean five"
    if before in HIVE_WORDS and before.endswith("s") and after in _PLURALS and third in ("each", "apiece"):
        return True  # "nine hives to strips each"
    if (
        before in ("has", "had")
        and word != "for"
        and after in _BEFORE_THINGS
        and w[i + 3 : i + 4]
        and w[i + 3] in _PLURALS
    ):
        return True  # "l three has to tau fluvalinate strips in"
    if word == "too" and after in _OVERMUCH:
        return False  # "the bees were too hot"
    if word == "to" and after in _OVERMUCH and not (before in HIVE_WORDS or before in letters):
        if before.isdigit() or not is_number_word(before):
            w[i] = "too"  # "S9 (to weak)", "it was to windy"
            return False
    if word == "to" and i > 1 and before in _OVERMUCH and w[i - 2] in ("too", "to") and after not in _PLURALS:
        return False  # "too windy to open nine"
    if word == "to" and before in ("out", "up", "in") and i > 1 and w[i - 2] in _COMES and is_number_word(after):
        return False  # "forty one came out to three percent"
    if word == "to" and before in ("got", "get", "lost") and after == "no":
        return True  # "seventy five got to no make that three pounds", "we've got to no three deadouts"
    if word in ("to", "for") and before == "hive" and after in ("there", "here"):
        return w[i + 2 : i + 3] in (["has"], ["is"], ["had"], ["needs"], ["got"])  # "hive to there has empty stores"
    if word == "for" and after in ("frames", "frame") and third == "of":
        return True  # "L13 for frames of bees"
    if word == "for" and before in ("it", "them", "her") and after in _WEIGHED and third == "of":
        return True  # "gave it for pounds of dry sugar"
    if word == "for" and before == "other" and after in ("in", "at", "on", "got", "get", "are", "need", "went", "go"):
        return True  # "banked the other for in QB"
    if word == "to" and before == "other" and after not in _NOT_NUMBER_AFTER and not is_number_word(after):
        return True  # "the other to friday"
    if word == "to" and before in ("got", "get") and i > 1 and w[i - 2] in _NEVER:
        return False  # "I never got to seventy nine"
    if word == "to" and after in ("wrapping", "supering", "unwrapping"):
        return False  # "never got around to wrapping the quarry"
    if word == "to" and before == "got" and i > 2 and w[i - 3] == "before" and w[i - 2] in ("i", "we"):
        return False  # "ran out before i got to S6"
    if after == "and" and w[i + 2 : i + 4] == ["a", "half"] and (before in _OVER or before in _STOPS):
        return True  # "to and a half frames of brood in l six"
    if word != "too" and after in ("in", "on") and _hive_before(w, i, letters) is not None:
        if third in letters or third in HIVE_WORDS:
            return True  # "… in l six for in l nine"
    if word == "for" and before in _MOVED and after in ("hives", "colonies", "nucs"):
        return True  # "moved for hives"
    if word == "for" and before in HIVE_WORDS and after == "the" and _fourth_in_row(w, i):
        return True  # "hive three heavy hive for the excluder came off"
    if word == "to" and after == "spare":
        return third in _PLURAL_KINDS  # "banked to spare queens", but "no bees to spare"
    if word == "to" and before in ("about", "ready", "fixing", "going") and after in _ABOUT_TO:
        return False  # "it's about to swarm"
    if word == "to" and before in ("got", "get", "gotten") and (after in _OVER or after in _STOPS):
        return None if _DENIES.isdisjoint(w[max(0, i - 3) : i]) else False  # "six I never got to"
    if word == "to" and after in ("one", "won") and before in ("two", "one", "won") and _ratio(w, i):
        return False
    if word == "to" and before not in ("one", "two") and after == "to" and third in ("one", "won") and _ratio(w, i + 1):
        return True  # "a gallon of to to won each"
    if before == "all" and word == "for" and after == "of":
        return third in ("them", "em", "those", "these", "the")
    if (
        before == "then"
        and i > 1
        and is_number_word(w[i - 2])
        and (after in ("then", "um", "uh", "and") or after in _STOPS)
    ):
        return True  # "got one then for then to"
    if (
        after in HIVE_WORDS
        and word != "too"
        and _hive_before(w, i, letters)
        and _counts_before_hive(w, i, word, letters)
    ):
        return True  # "hive eleven to hive eleven's got chalkbrood"
    if before == "and" and after == "on" and word != "for" and third in HIVE_WORDS:
        return True  # "five on hive six and to on hive ten"
    if after == "more" and third in _tables()[2] and third.endswith("s") and before in ("and", "then", "put", "sold"):
        return True  # "and to more nucs"
    if before == "'s" and w[max(0, i - 3) : i - 1] == ["that", "one"] and (after in _STOPS or after in ("and", "so")):
        return True  # "seventy four half cup again that one's to and …"
    if after == "per" and third in HIVE_WORDS | {"nuc", "box"} and word in ("to", "for"):
        return True  # "forty through fifty nine to per hive"
    if before in ("had", "has") and after in _SPEAKERS and word in _SMALL:
        return True  # "l eight had for i'll wash it again"
    if word == "to" and after in ("a", "per") and third in ("hive", "colony", "nuc") and is_number_word(before):
        if _hive_before(w, i, letters) is not None:
            return True  # "l nine through l fourteen to a hive"
    if before == "last" and i > 1 and w[i - 2] in ("those", "these", "the"):
        return word != "for" and after in ("a", "an", "get", "got", "are", "had", "need", "one", "two")
    if before in _tables()[3] and i > 1 and w[i - 2] in _GIVEN:
        if after in ("a", "an", "one", "some", "half", "its"):
            return True  # "gave forty to a bag of sugar"
    if before in ("forty", "fifty", "sixty", "seventy", "eighty", "ninety") and after == "this":
        return third in ("morning", "afternoon", "evening") or None  # "released her in forty for this morning"
    if word == "too" and _hive_before(w, i, letters) and (after in letters | HIVE_WORDS or after in _STOPS):
        checked = i > 4 and w[i - 4] in _CHECKS and w[i - 5] != "candy"
        worked = w[i - 3] in ("on", "in", "to") or (w[i - 3].endswith("ed") and w[i - 3] not in _CHECKS)
        if i > 4 and worked and not checked:
            return None  # "and a candy board on s five too"
        return _checked_before(w, i) or None  # "l nine eight l ten too l eleven nothing"
    if word == "too" and before in ("in", "on") and after in _PLURALS:
        return True  # "greenies went in too strips"
    if word == "for" and after in _HIVES_COUNTED and before in ("bought", "sold", "lost", "made", "caught"):
        return True  # "bought for nukes"
    if word == "for" and after == "queens" and before in _OF_QUEENS:
        return True  # "banked for queens"
    if before == "round":
        dose = is_number_word(after) and third in _tables()[2]  # "round to one tray each"
        return (word != "for" and (after in _AFTER_ROUND or after in _STOPS or dose)) or None  # "that's round to done"
    if before in ("those", "these") and word == "too":
        return after not in _STOPS  # "those too come out thursday"
    if word == "to" and after == "and" and is_number_word(third) and before not in _IS_TO:
        return True  # "n one to and three", "hefted to and nine": "to and nine" is no English
    if word == "for" and before in ("was", "is") and i > 1 and (is_number_word(w[i - 2]) or w[i - 2] == "it"):
        return (is_number_word(after) and _counting(w, i)) or None  # "soap wash 46 was for fifty two I got thirteen"
    if before == "lost":
        return after in _STOPS or after in _AFTER_LOST or None  # "and sawdust lost to"
    if after in ("percent", "%") and (before in _VALUE_VERBS or before == "at" or _hive_before(w, i, letters)):
        return True  # "hive two for percent"
    if after in HIVE_WORDS and before in ("is", "was", "had", "has", "got") and _hive_before(w, i - 1, letters):
        return word == "for" or after == "number" or None  # "number eleven is for number fourteen is nine"
    if (
        before in ("put", "gave", "stuck", "and", "then", "with", "hung", "slid")
        and (word != "for" or before in ("put", "gave", "hung", "slid"))
        and after in _BEFORE_THINGS
        and third in _PLURALS
    ):
        return True  # "put to hop strips in eighteen"
    if before in ("has", "had", "have", "got", "with") or _hive_before(w, i, letters):
        if after in _CELL_KINDS and (third in _CELLS or third == "seizure" or w[i + 3 : i + 4] == ["cells"]):
            return True  # "has to emergency cells", "l five to supersedure cells"
        if before in ("has", "had") and word != "for" and after in _PLURALS:
            return True  # "has to frames of brood"
        if before in ("got", "has", "had") and word != "for" and after in _BEFORE_THINGS and third in _PLURALS:
            return True  # "sixty three got to hop strips"
    a_hive = after == "a" and third in HIVE_WORDS and is_number_word(before) and w[i - 2] in _RANGES
    if word != "for" and (after == "each" or a_hive):
        return _each_without_number(w, i)
    led = i > 1 and (w[i - 2] in _BEFORE_ID or w[i - 2] in _WORKED_AT)
    if len(before) == 1 and before in letters and led and after in _NOT_NUMBER_AFTER:
        return after not in ("the", "my", "our")  # "grafted thirty six off s to this morning"
    return None


_IS_TO = frozenset(
    "got get gotten went going go getting drove drive need needs want wants have has try back over".split()
)
"""Words that "to" may follow although what it leads to is not said ("the ones I never got to and nine")."""
_IS_FOR = frozenset("is are were it's that's was what paid asked looking waiting due".split())
_WORKED_AT = listed("worked_at")


def _carried_into(w: list[str], i: int, before: str) -> bool:
    """ "for drawn combs into sixty", "for supers onto nine": things that go into a hive, and how many, where a
    statement may begin.
    """
    if before not in _OVER and before not in _STOPS and not is_number_word(before):
        return False
    k = next((k for k in (i + 2, i + 3, i + 4) if w[k : k + 1] and w[k] in ("into", "onto")), None)
    return k is not None and w[k - 1].endswith("s") and k + 1 < len(w) and is_number_word(w[k + 1])


_KINDS = frozenset(
    "spare extra old new young mated virgin leftover other good best weak strong small big empty".split()
)
_PLURAL_KINDS = frozenset("queens cells nucs hives colonies supers boxes boards feeders splits virgins".split())
_ON_HIVES = frozenset("on in into onto off from under".split())
_RANGES = frozenset("through thru to two and until".split())
_HIVES_COUNTED = frozenset("nucs hives colonies splits swarms packages".split())
_DONE_AT = frozenset("put took gave got added had has is".split())
_SOME_HIVE = frozenset(["a", "another", "my", "our", "that"])
_ONE_HIVE_OF = frozenset("a an the another that this each every one empty new my our per need any which".split())


def _more_numbers(w: list[str], i: int) -> bool:
    """Whether what stands at `i` sounds like a number, and numbers go on after it."""
    k = i + 2 if w[i + 1 : i + 2] == ["and"] else i + 1
    return k < len(w) and w[i] in _tables()[0] and is_number_word(w[k])


def _ends_place(w: list[str], i: int, places: Mapping[str, list[list[str]]] | None) -> bool:
    """Whether a yard's name ends just before `i`."""
    if not places:
        return False
    return any(w[k:i] in places.get(w[k], ()) for k in range(max(0, i - 3), i))


_A_HIVE = (["a", "hive"], ["a", "colony"], ["per", "hive"], ["per", "colony"], ["to", "a"], ["a", "box"], ["a", "nuc"])
_COUNTED_ONE = frozenset("strip pad wafer sponge tray tablet super box feeder frame jar quart gallon patty".split())
_WEIGHED = frozenset("pounds pound lbs gallons quarts pints kilos patties jars bags".split())
_OVERMUCH = listed("too_much")
_DENIES = frozenset(["never", "didn't", "haven't", "hasn't", "don't", "couldn't", "won't", "not"])
_SYRUP = frozenset("syrup gallon gallons quart quarts pint pints fed sugar got".split())
_OF_QUEENS = listed("done_with_queens")
_GIVEN = listed("giving")
_CHECKS = listed("checks_spoken_of")


def _ratio(w: list[str], i: int) -> bool:
    """Whether syrup is spoken of near the "to" of what may be its ratio ("a gallon of two to one")."""
    return bool(_SYRUP & set(w[max(0, i - 9) : i + 6]))


def _checked_before(w: list[str], i: int) -> bool:
    """Whether a check for mites was spoken of in the words before."""
    return bool(_CHECKS & set(w[max(0, i - 40) : i]))


_BEFORE_ID = frozenset("except but bar off of in on from under into out and for".split())


def _of_taught(w: list[str], i: int, word: str, taught: frozenset[str]) -> bool:
    """ "forty nine got to blues", "blues in one through twelve to a hive": two of what the outfit calls so."""
    if word not in ("to", "too", "for") or not taught:
        return False
    before, after = w[i - 1] if i else "", w[i + 1 : i + 3]
    if after[:1] and after[0] in taught:
        return before in ("got", "put", "gave", "gets", "and", "in", "with")
    each = after[:1] == ["each"] or (after[:1] == ["a"] and after[-1] in HIVE_WORDS)
    named = [k for k in range(max(0, i - 16), i) if w[k] in taught] if each and word != "for" else []
    if not named or not is_number_word(before) or (after[0] == "a" and w[i - 2] not in _RANGES):
        return False  # "blues one to a hive"
    return not is_number_word(w[named[-1] - 1])


_GAVE = frozenset("gave give fed got gets put on in".split())
_PERCENT = frozenset(["percent", "%", "per"])


def _each_without_number(w: list[str], i: int) -> bool | None:
    """ "wafers into sixty one through sixty four to each" is two each; "a super to each of them" is not."""
    for k in range(i - 1, max(-1, i - 16), -1):
        if w[k] in _STOPS:
            return None
        if w[k] in _PLURALS or w[k] in _THINGS:
            number = k and (is_number_word(w[k - 1]) or w[k - 1] in ("a", "one", "of", "more", "extra", "another"))
            return False if number else None if k == i - 1 else True
        if w[k] in ("a", "an"):
            return False
    return None


_THINGS = frozenset("super strip pad wafer sponge tray tablet board frame box feeder patty patties".split())
_COUNTING = listed("counting")


def _counting(w: list[str], i: int) -> bool:
    """Whether a way of counting mites was named shortly before."""
    return any(x in _COUNTING for x in w[max(0, i - 14) : i]) and not {
        "check",
        "recheck",
        "test",
        "washed",
        "look",
    } & set(w[max(0, i - 6) : i])


def _hive_before(w: list[str], i: int, letters: set[str]) -> int | None:
    """The number of the hive named just before `i` ("hive sixteen", "l five"); None where none is."""
    for start in range(max(1, i - 3), i):
        number = number_at(w, start)
        if (
            number is not None
            and number.end == i
            and number.whole
            and (w[start - 1] in HIVE_WORDS or w[start - 1] in letters)
        ):
            return int(number.value)
    return None


_LOOKED = frozenset("check checked checking test tested testing look looked looking inspect inspected examined".split())


def _looked_for(w: list[str], i: int) -> bool:
    """Whether the hive named before the "for" at `i` is one that somebody looks into, or still will."""
    return not _LOOKED.isdisjoint(w[max(0, i - 5) : i - 1])


def _each_got(w: list[str], i: int, word: str, before: str, after: str) -> bool:
    """ "thirteen to stinkies each", "seven eight and ten to each", "three and for one each": how many each got."""
    third, listed = w[i + 2 : i + 3], i > 1 and (w[i - 2] == "and" or is_number_word(w[i - 2]))
    if word == "for":
        return before == "and" and listed and is_number_word(after) and third[:1] in (["each"], ["apiece"])
    if word not in ("to", "too") or not is_number_word(before):
        return False
    if after in ("each", "apiece"):
        return listed and third not in (["hive"], ["colony"], ["nuc"], ["one"], ["of"], ["box"])
    return third in (["each"], ["apiece"]) and not is_number_word(after) and after not in _NOT_NUMBER_AFTER


def _put_in(w: list[str], i: int, before: str, after: str, counted: frozenset[str]) -> bool:
    """ "combs to in l three for in both of the others": "to in" and "for in" are no English."""
    third = w[i + 2] if i + 2 < len(w) else ""
    return after in ("in", "on") and (
        (before in counted and before.endswith("s") and len(before) > 3)
        or (is_number_word(before) and (third in ("both", "each", "the", "all") or third in HIVE_WORDS))
    )


def _counts_before_hive(w: list[str], i: int, word: str, letters: set[str]) -> bool:
    """Whether a count is due between the hive before and the one after: a range would fall, or goes on in a chain."""
    n = len(w)
    if i + 2 >= n or not (w[i + 1] in HIVE_WORDS or w[i + 1] in letters):
        return False
    homophones = _tables()[0]
    after = number_at([homophones.get(w[i + 2], w[i + 2]), *w[i + 3 : i + 5]], 0)
    if after is None:
        return False
    if word == "for":
        return True
    end = i + 2 + after.end
    if w[end : end + 1] and w[end] in _FEELS and _counting(w, i):
        return True  # "soap wash s three to s nine feels light"
    chained = end + 1 < n and w[end] in ("to", "too") and w[end + 1] in HIVE_WORDS | letters
    before = _hive_before(w, i, letters)
    before_that = i > 3 and w[i - 2] in letters | HIVE_WORDS and (w[i - 3] == "two" or _in_turn(w, i, letters, end))
    return before is not None and (after.value <= before or chained or before_that)


def _in_turn(w: list[str], i: int, letters: set[str], end: int) -> bool:
    """ "l two one l three to l four for": each hive had its count before, and the one after "to" has its own."""
    before = i > 4 and is_number_word(w[i - 3]) and is_number_word(w[i - 4]) and w[i - 5] in letters | HIVE_WORDS
    return before and end + 1 < len(w) and (is_number_word(w[end]) or w[end] in _tables()[0])


_FEELS = frozenset("feels looks seems has is was 's needs gets".split())
_MOVED = listed("verbs_of_moving")
_SOLD = frozenset("sold sell selling".split())
_NO_BUYER = _VALUE_VERBS | frozenset(
    "and or then today yesterday last this that from for um uh okay on at so also with in i we went to too".split()
)
"""What after "sold forty to" is nobody who could have bought it."""
_TOWARDS = frozenset("to over into onto from out up down and um through thru , .".split())


_ONE_HIVE = (_VALUE_VERBS | {"of", "'s"}) - {"have", "were"}
"""What is said of one hive after its number, and not of a range ("seventy to seventy five have their wraps on")."""


_TO_THEM = frozenset("each them em 'em those all both every everybody".split())


def _after_tens(w: list[str], i: int, word: str, after: str, ids: Mapping[str, tuple[str, ...]]) -> bool:
    """ "forty to had": forty two; but "forty to forty six", "forty to the pond"."""
    third = w[i + 2] if i + 2 < len(w) else ""
    if word in _ONLY_SOUNDS or (word == "for" and after in ("get", "gets")):
        return True
    if word == "for" and is_number_word(after) and third in _SO_LONG:
        return False  # "strips stay in fifty for three more weeks"
    alone = next((k for k in (i + 2, i + 3) if w[k : k + 1] and w[k] in _ONE_HIVE), None)
    if alone is not None and w[alone] == "gave" and w[alone + 1 : alone + 2] and w[alone + 1] in _TO_THEM:
        alone = None  # "reducers off forty to forty five | gave each of them a patty"
    if alone is not None and w[alone] == "got" and w[alone + 1 : alone + 2] and w[alone + 1].isalpha():
        given = w[alone + 1]
        if given not in _tables()[0] and given not in ("none", "zero", "nothing") and not is_number_word(given):
            alone = None  # "forty to fifty got strips"
        elif w[alone + 2 : alone + 3] in (["each"], ["apiece"]):
            alone = None  # "forty to forty eight got two each"
    ranging = word == "to" and is_number_word(after) and alone is None
    if ranging:
        low, high = number_at(w, i - 1), number_at(w, i + 1)
        if low is not None and high is not None and not _one_range(int(low.value), int(high.value), ids):
            return True  # "forty to eighty eight": no such range of hives, so forty two had eighty eight
    if after == "it" and third in _VALUE_VERBS:
        return True  # "I washed sixty to it had eleven"
    if after in ("which", "that") and third in _WHICH_HIVE:
        return True  # "except seventy to which is dead"
    if word == "to" and after == "that" and is_number_word(third):
        return True  # "formic's out of seventy to | that seventy five had robbing"
    if word == "to" and after in ("a", "an") and third in _HANDED_OUT and w[i - 2] not in _TAKEN_FROM:
        return True  # "combined it into twenty to | a super on nine"; but "frames from twenty to a box"
    if word == "to" and not _SOLD.isdisjoint(w[max(0, i - 4) : i - 1]) and after.isalpha() and after not in _NO_BUYER:
        return False  # "sold hive twenty to pete", "sold seventy to a fellow from town"
    if word == "to" and not _MOVED.isdisjoint(w[max(0, i - 3) : i - 1]) and after not in _TOWARDS:
        return False  # "moved fifty to heath"
    return (after not in _NOT_NUMBER_AFTER or (after == "a" and third in ("dozen", "hundred"))) and not ranging


_TAKEN_FROM = frozenset("of off from".split())
_SO_LONG = frozenset("more days weeks months hours days' weeks'".split())


def _one_range(low: int, high: int, ids: Mapping[str, tuple[str, ...]]) -> bool:
    """Whether hives `low` to `high` can be a range: it rises and, where the roster has the one, it has the other."""
    if high <= low:
        return False
    first, last = ids.get(str(low)), ids.get(str(high))
    return first is None or (last is not None and bool(set(first) & set(last)))


def _subject_of_count(w: list[str], i: int, before: str, after: str, homophones: dict[str, str]) -> bool:
    """ "to had won", "for was clean": no preposition stands before "had", so it is a colony."""
    third = w[i + 2] if i + 2 < len(w) else ""
    return (
        after in ("had", "has", "was")
        and w[i] in ("to", "too", "for", "won", "ate")
        and not is_number_word(before)
        and before not in ("it", "this", "that", "what", "i", "he", "she", "we", "which", "they", "one")
        and (is_number_word(third) or third in homophones or third in ("none", "zero", "nothing", "clean", "no"))
    )


def _value_due(w: list[str], i: int) -> bool:
    """After "had", "was", "gave me" a count is due, and after "nine came up"."""
    before = w[i - 1] if i else ""
    return (
        before in _VALUE_VERBS
        or (before == "me" and i > 1 and w[i - 2] in ("gave", "got"))
        or (before in ("up", "back", "out", "in") and i > 2 and w[i - 2] in _COMES and is_number_word(w[i - 3]))
        or (before == "with" and i > 2 and w[i - 2] in ("up", "back", "out") and w[i - 3] in _COMES)
    )


_LIQUIDS = frozenset(["alcohol", "soap", "soapy"])


def _ends_value(
    w: list[str], i: int, word: str, before: str, after: str, letters: set[str], homophones: dict[str, str]
) -> bool:
    """A count stands alone: what follows begins something else."""
    if word == "for" and is_number_word(after) and before in ("got", "was", "is"):
        named = number_at(w, i + 1)  # "seventy is for seventy one is nine"
        end = named.end if named is not None else len(w)
        end += end < len(w) and w[end] in homophones  # "fifty won was", "sixty to had": a colony of two words
        return w[end : end + 1] in (["is"], ["was"], ["had"], ["got"], ["has"])
    number_after = is_number_word(after) or after in homophones or after in _tables()[4]
    return (
        after in _AFTER_VALUE
        or (after == "the" and w[i + 2 : i + 3] != [] and w[i + 2] in _tables()[4])  # "the first had to the second"
        or (after == "of" and w[i + 2 : i + 3] in (["them"], ["em"]))
        or after in _STOPS
        or (after in _LIQUIDS and w[i + 2 : i + 3] in (["both"], ["wash"], ["washes"], ["again"], ["too"]))
        or (number_after and before not in ("has", "have"))
        or _letter_id(w, i + 1, letters, homophones)
    )


def _before_counted(word: str, before: str, after: str) -> bool:
    """ "had to mites", "put to supers on"; but "for mites", "added to supers", "too weak"."""
    if word in ("to", "tu", "too"):
        if after == "one":
            return False  # "worked out to one percent"
        if word == "too":
            return before in _VALUE_VERBS | {"put", "added", "gave", "fed", "and", "pulled"}
        return before not in _NOT_TWO_BEFORE
    if word == "for" and before == "and":
        return after in ("frames", "frame")
    if word in _ONLY_SOUNDS:
        return True
    return before in _VALUE_VERBS | {
        "put",
        "and",
        "fed",
        "pulled",
        "added",
        "with",
        "plus",
        "about",
        "maybe",
        "around",
    } and not (word == "for" and before in ("pulled", "is", "was"))


def _two_of(w: list[str], i: int, before: str, after: str) -> bool:
    """ "to of them", "to per hive", "those to"."""
    third = w[i + 2] if i + 2 < len(w) else ""
    if after in ("a", "per") and third in ("hive", "colony", "box", "nuc"):
        return before not in _NOT_TWO_BEFORE and not (
            before.endswith("ed") or before in ("put", "gave", "give", "strip", "pad")
        )
    if after == "of":
        return third in ("them", "em", "the", "those")
    return before in ("the", "those", "these", "all", "other") and after not in _NOT_NUMBER_AFTER


def _is_letter(before: str, i: int, letters: set[str], spelled: dict[str, str]) -> bool:
    if len(before) == 1 and before.isalpha():
        return before in letters or (not letters and before not in "aio" and i >= 1)
    return spelled.get(before) in letters and before not in ("are", "see", "be", "why", "sea", "tea")


def _letter_id(w: list[str], i: int, letters: set[str], homophones: dict[str, str]) -> bool:
    return (
        i + 1 < len(w) and len(w[i]) == 1 and w[i] in letters and (is_number_word(w[i + 1]) or w[i + 1] in homophones)
    )
