"""Lesson 7: what its panels say, for those who cannot see a picture and for all."""
import math

from lessons_lib.base.units import in_unit, said
from lessons_lib.base.workshop import ROW

ARRANGEMENT_WORDS = {"rods": "rods, long coil", "screws": "screws, long coil", "six coils": "rods, small coils",
                     "alternating": "alternating coils", "blade": "blade, long coil"}


def level_words(level, digits=1):
    """A level (dB), or that there is none."""
    return "nothing" if level == -math.inf else said(level, "dB", f"+z.{digits}f")


def raised_words(one):
    """The field over a raised pole before and now."""
    before, now = (said(field, "mT", ".1f") for field in one.over_pole)
    return now if before == now else f"{before} → {now}"


def alt_of_field(one, *, kind, number, raised, look):
    """Of the field over six poles."""
    beside = one.next_string
    poles = "six rods" if kind == "rods" else "six screws on a bar"
    moved = (f"Raised by {{raised by}}, this pole changes the level of its own string by "
             f"{{level of string {ROW[number]}}}, that of string {ROW[beside]} beside it by "
             f"{{of its neighbour {ROW[beside]}}}." if raised else "All poles are flush.")
    return (f"The field above {poles}, cut across the strings: it is strongest close to their tops, and at the strings "
            f"it dips between two poles. At {said(look, 'mm', '.1f')} height: "
            f"{said(one.over_pole[0], 'mT', '.1f')} over the pole of string {ROW[number]} with all poles flush, "
            f"{said(one.over_pole[1], 'mT', '.1f')} now, {said(one.half_way, 'mT', '.1f')} half way to the next pole. "
            f"{moved}")


def alt_of_levels(one, *, kind, third, wrap, **_):
    """Of the levels of six strings."""
    poles = "six rods" if kind == "rods" else "six short screws on a bar"
    moved = ", ".join(f"{name} {said(in_unit(top, 'mm'), '', '+z.2f')}" for name, top in zip(ROW, one.tops) if top)
    tops = f"tops in mm: {moved}, all others flush" if moved else "all flush"
    wound = "bronze" if wrap == 1 else "nickel-plated steel"
    return (f"Six strings with a {'plain' if third == 'III' else 'wound'} third, the wound ones wrapped in {wound}, "
            f"plucked with 1 N each over {poles}, "
            f"{tops}: string {one.loudest} is the loudest and string {one.softest} the softest, "
            "{between loudest and softest} apart. First pulses and levels relative to string VI in bronze over flush "
            "poles: "
            + "; ".join(f"{name} {{{name}}}" for name in ROW) + ".")


def mv(value):
    """A voltage in mV."""
    return said(value, "mV", ".0f" if value >= 10e-3 else ".1f")


def alt_of_joined(one, *, coils, sounding, turns):
    """Of one coil or six."""
    strings = {"one": "string IV alone sounds", "two": "strings IV and III sound", "six": "all six strings sound"}
    six = coils != "long"
    each = (f" The coils give at most {', '.join(map(mv, one.of_each_coil))}." if six else
            f" It gives {mv(one.of_each_coil[0])} at most: every turn has the voltages of all strings in it.")
    return (f"{'Six small coils in series' if six else 'One long coil'} from above, {strings[sounding]}, each with "
            f"1 m/s at the pickup.{each} In one wire voltages add; their sum is {{level}} relative to one long coil of "
            f"{turns} turns. {{turns of all coils}} turns, {{DC resistance}}, {{inductance}}, peak at {{peak}}.")


def flux_words(value, unit="nWb"):
    """A flux in nWb, or another unit."""
    return said(value, unit, ".0f" if unit == "nWb" else ".1f")


def alt_of_closing(one, *, kind, loop):
    """Of where the flux closes."""
    poles = "one rod in a round coil" if kind == "one" else "six rods in the long coil"
    return (f"String VI over {poles}, cut along the string, and a loop round the pole at {said(one.at, 'mm', '.1f')}. "
            "String VI still carries {still in string VI} there. The magnets send {magnets' flux in the loop} through "
            "the loop, less in a wider one; the string adds {added by the string}, and more in a wider one as far as "
            "about 11 mm. A mean turn of the winding links {a mean turn links} of the rods' flux.")


def alt_of_hum(one, *, more_turns, uneven):
    """Of signal and hum of a pair."""
    field = said(abs(uneven), "%", ".3g") + (" stronger" if uneven > 0 else " weaker") if uneven else "even"
    left = "no hum is left" if one.hum["both"] == -math.inf else "the hum {hum, both reversed}"
    return ("A second coil with its winding and its magnets reversed keeps the signal and loses the hum that both "
            f"coils pick up alike. With {said(more_turns, '%', '.3g')} more turns and a hum field that is {field} "
            f"there, the signal is {{signal, both reversed}} and {left}. With neither reversed they are "
            f"{level_words(one.signal['neither reversed'])} and {level_words(one.hum['neither reversed'])}. The string "
            "moves in the same way over both coils.")


def alt_of_wired(one, *, wiring, apart, name):
    """Of the pair wired three ways."""
    how = {"one": "One coil of the pair alone", "series": "Both coils in series", "parallel": "Both coils in parallel",
           "out of phase": "Both coils in series, the second one's leads swapped"}[wiring]
    if wiring == "one":
        heard = "One coil hears one place, so there is no comb."
    else:
        heard = (f"They are {said(apart, 'mm', '.3g')} apart. On string {name} the comb of the two places has its "
                 "first null at {first null of the comb}" + (", but for 0 Hz." if wiring == "out of phase" else "."))
    return (f"{how}: {{DC resistance}}, {{inductance}}, with the workshop's cable and controls a peak at {{peak}}. "
            f"Relative to one coil the signal of low partials is {{signal}}, the hum {{hum}}. {heard}")
