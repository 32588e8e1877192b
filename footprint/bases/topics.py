"""The differences between bases, in the one order in which a bridge leads over them.

The size of a step depends on the order, so the order is fixed and printed.
"""

from __future__ import annotations

from typing import Literal, get_args

Topic = Literal[
    "carbon counted",
    "gas constants",
    "default or measured factor",
    "ratio of CO2 to carbon",
    "oxidation",
    "purge and off-gas",
    "product carbon",
    "equipment covered",
    "biomethane",
    "CO2 to urea",
    "CO2 sold",
    "CO2 stored",
    "CO2 bought",
    "CO2 recovered from the stack",
    "other gases",
    "edition of warming potentials",
    "heat in and out",
    "power",
    "attribution to products",
    "data gaps",
    "rounding",
]
TOPICS: tuple[Topic, ...] = get_args(Topic)
MEANS: dict[Topic, str] = {
    "carbon counted": "which streams and meters the basis takes the carbon from",
    "gas constants": "real gas with its compression factor, or the ideal constant prescribed",
    "default or measured factor": "analysis of the works, or a published factor",
    "ratio of CO2 to carbon": "atomic weights, 44/12 or 3.664",
    "oxidation": "share of the carbon that is taken to burn",
    "purge and off-gas": "carbon of off-gas burnt: counted with feed, with fuel, or once more",
    "product carbon": "carbon that leaves in gas or products sold",
    "equipment covered": "fuels of engines, emergency sets, vehicles and flares in or out",
    "biomethane": "gas of biological origin, by certificates",
    "CO2 to urea": "CO2 bound in urea deducted or not",
    "CO2 sold": "CO2 sold for other uses deducted or not",
    "CO2 stored": "CO2 to geological storage deducted or not",
    "CO2 bought": "CO2 received from others counted or not",
    "CO2 recovered from the stack": "CO2 taken out of flue gas",
    "other gases": "CH4 and N2O counted or not",
    "edition of warming potentials": "GWP100 of the edition in force",
    "heat in and out": "heat bought and delivered",
    "power": "emissions of power bought, and credit for power delivered",
    "attribution to products": "share of the works that belongs to ammonia",
    "data gaps": "how missing readings are filled",
    "rounding": "as filed",
}
