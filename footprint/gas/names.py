"""Names of gas components: a formula, a name or a short form to that of the component table."""

from __future__ import annotations

import re

# name in the component table: its formula where no other component shares it, other names in use
_OTHER_NAMES: dict[str, tuple[str, ...]] = {
    "methane": ("CH4", "C1"),
    "ethane": ("C2H6", "C2"),
    "propane": ("C3H8", "C3", "n-propane"),
    "n-butane": ("butane", "n-C4", "nC4H10", "normal butane"),
    "isobutane": ("i-butane", "i-C4", "iC4H10", "2-methylpropane", "methylpropane"),
    "n-pentane": ("pentane", "n-C5", "nC5H12", "normal pentane"),
    "isopentane": ("i-pentane", "i-C5", "iC5H12", "2-methylbutane", "methylbutane"),
    "neopentane": ("neo-C5", "neo-C5H12", "2,2-dimethylpropane", "dimethylpropane"),
    "n-hexane": ("hexane", "n-C6", "nC6H14", "normal hexane"),
    "2-methylpentane": (),
    "3-methylpentane": (),
    "2,2-dimethylbutane": ("neohexane",),
    "2,3-dimethylbutane": (),
    "n-heptane": ("heptane", "n-C7", "nC7H16"),
    "n-octane": ("octane", "n-C8", "nC8H18"),
    "n-nonane": ("nonane", "n-C9", "nC9H20"),
    "n-decane": ("decane", "n-C10", "nC10H22"),
    "n-undecane": ("undecane", "n-C11"),
    "n-dodecane": ("dodecane", "n-C12"),
    "n-tridecane": ("tridecane", "n-C13"),
    "n-tetradecane": ("tetradecane", "n-C14"),
    "n-pentadecane": ("pentadecane", "n-C15"),
    "ethylene": ("C2H4", "ethene"),
    "propylene": ("C3H6", "propene"),
    "1-butene": ("but-1-ene",),
    "cis-2-butene": ("cis-but-2-ene",),
    "trans-2-butene": ("trans-but-2-ene",),
    "isobutylene": ("isobutene", "2-methylpropene"),
    "1-pentene": ("pent-1-ene",),
    "propadiene": ("allene",),
    "1,2-butadiene": (),
    "1,3-butadiene": (),
    "acetylene": ("C2H2", "ethyne"),
    "cyclopentane": (),
    "methylcyclopentane": (),
    "ethylcyclopentane": (),
    "cyclohexane": (),
    "methylcyclohexane": (),
    "ethylcyclohexane": (),
    "benzene": ("C6H6",),
    "toluene": ("C7H8", "methylbenzene"),
    "ethylbenzene": (),
    "o-xylene": ("1,2-dimethylbenzene", "ortho-xylene"),
    "methanol": ("CH3OH", "CH4O", "MeOH"),
    "methanethiol": ("CH3SH", "CH4S", "methyl mercaptan"),
    "hydrogen": ("H2",),
    "water": ("H2O", "water vapour", "water vapor", "moisture"),
    "hydrogen sulfide": ("H2S", "hydrogen sulphide"),
    "ammonia": ("NH3",),
    "hydrogen cyanide": ("HCN",),
    "carbon monoxide": ("CO",),
    "carbonyl sulfide": ("COS", "carbonyl sulphide"),
    "carbon disulfide": ("CS2", "carbon disulphide"),
    "helium": ("He",),
    "neon": ("Ne",),
    "argon": ("Ar",),
    "nitrogen": ("N2",),
    "oxygen": ("O2",),
    "carbon dioxide": ("CO2",),
    "sulfur dioxide": ("SO2", "sulphur dioxide"),
}
COMPONENTS = tuple(_OTHER_NAMES)
_SUBSCRIPTS = str.maketrans("₀₁₂₃₄₅₆₇₈₉", "0123456789")
_TRAILING_UNIT = re.compile(
    r"[\s,]*[(\[]?\s*"
    r"(?:mol(?:ar|e)?\s*)?(?:%|per\s*cent|percent|fraction|mol/mol)(?:\s*mol)?"
    r"\s*[)\]]?\s*$",
    re.IGNORECASE,
)


def _plain(text: str) -> str:
    """Return the text in small letters without blanks, hyphens and dots."""
    folded = text.translate(_SUBSCRIPTS).casefold().replace("iso-", "iso").replace("neo-", "neo")
    return re.sub(r"[\s\-–_.·]+", "", folded)


_KNOWN = {
    _plain(name): component
    for component, others in _OTHER_NAMES.items()
    for name in (component, *others)
}


def name_of(heading: str) -> str | None:
    """Return the name in the component table, or None where the heading is no single component.

    "C6+", "hexanes plus" and a bare "C4H10" stand for more than one component and need a stated
    split.

    Args:
        heading: formula, name or short form, in any case and spacing, also with "mol %". [text]

    Source: common practice, no source
    """
    found = _KNOWN.get(_plain(heading))
    return found or _KNOWN.get(_plain(_TRAILING_UNIT.sub("", heading)))
