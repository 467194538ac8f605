"""The one schema of an anchor family: for catalogue files, products in a request, and the published JSON Schema.

Words of ACI 355.2 and 355.4; symbols and clauses of ACI 318-19 chapter 17 where nothing else is said. A file states
its numbers in one unit system: "us" in, in2, psi, lbf, ft*lbf; "si" mm, mm2, MPa, kN, N*m. The factors k_cr and
k_uncr are those of N_b = k lambda_a sqrt(f'c) h_ef^1.5 and so differ by system: 17 to 24 in "us" (lbf, psi, in), 7 to
10 in "si" (N, MPa, mm). Temperatures are degF or degC.

A pullout strength is a number, the word "not_governing", or absent. Absent means: not qualified in that state.
"""

from typing import Annotated, Any, Literal, Self

from pydantic import Field, model_validator

from hangpoint.product import consistency
from hangpoint.product.allowable_table import AllowableTable as AllowableTable
from hangpoint.product.allowable_table import Base as Base
from hangpoint.product.embedment import Embedment
from hangpoint.product.fields import Model, Sentence, Units, about, area, length, quantity, stress, words

FORMAT = 1
BRANCHES = ("number", "word")
"""Parts that a choice between number and word adds to the place of an error; not part of a JSON pointer."""

Basis = Literal["qualified", "allowable_table", "cast_in", "adhesive", "en"]
Principle = Literal[
    "torque_controlled_expansion",
    "displacement_controlled_expansion",
    "undercut",
    "screw",
    "adhesive",
    "headed_cast_in",
    "hooked_cast_in",
    "cast_in_insert",
    "driven_pin",
    "hammer_set_pin",
]
Steel = Literal["carbon", "stainless_304", "stainless_316", "high_alloy"]
Coating = Literal["none", "zinc", "zinc_mechanical", "hot_dip"]


class Source(Model):
    """Where supplied product data come from."""

    document: Annotated[str, words("Title and number of the document that the numbers are copied from.")]
    date: Annotated[
        str,
        Field(
            pattern=r"^(19|20)\d{2}(-(0[1-9]|1[0-2])(-(0[1-9]|[12]\d|3[01]))?)?$",
            description="Date of that document: 2024, 2024-05 or 2024-05-31.",
        ),
    ]
    edition: Annotated[str | None, words("Edition, revision or reissue.")] = None
    standard: Annotated[str, words("Standard that the product was evaluated to, with its edition.")]


class Material(Model):
    """Steel and corrosion protection."""

    steel: Annotated[Steel, about("Steel of the load-carrying parts.")]
    coating: Annotated[
        Coating,
        about("Coating: none, electroplated zinc, mechanically applied zinc, or hot-dip galvanised."),
    ]
    grade: Annotated[str | None, words("Material standard and grade, if stated.")] = None


class Suitability(Model):
    """What a product is fit for, as far as a check asks."""

    removable: Annotated[bool, about("Can be taken out. It must not be set again (17.1.3).")]
    internally_threaded: Annotated[bool, about("Takes a rod in an internal thread; `thread` is then stated.")]
    bases: Annotated[
        tuple[Base, ...],
        Field(strict=False, min_length=1, max_length=4, description="Bases that the product is made for."),
    ]
    tension_overhead: Annotated[bool, about("May hang loads from a soffit. False: refused overhead.")]
    sustained_tension: Annotated[bool, about("May carry tension that stays (17.5.2.2 for adhesive anchors).")]
    use: Annotated[
        Literal["ceiling"] | None, about("The one use that the product is made for; absent: any within its data.")
    ] = None
    upward: Annotated[
        bool, about("Adhesive qualified for horizontal and upward installation (17.2.3); false for all others.")
    ] = False
    least_age_days: Annotated[
        float | None,
        Field(
            ge=0,
            le=3650,
            description="Least age of the concrete when an adhesive anchor is set, days; absent: 21 (17.2.2).",
        ),
    ] = None


class Traits(Suitability):
    """What the family is fit for. In a file every trait is stated but those of adhesives, which default as said."""

    flush: Annotated[bool, about("Ends flush with the face of the base once set.")]
    cracked_qualified: Annotated[
        bool, about("One embedment at least is qualified for cracked concrete (ACI 355.2); agrees with n_p_cr.")
    ]
    seismic_qualified: Annotated[
        bool,
        about(
            "One embedment at least is qualified for earthquake (17.10.3; category C1); agrees with `seismic`, `en.c1`."
        ),
    ]
    training: Annotated[bool, about("Only trained or certified people may set it.")]
    setting_tool: Annotated[str | None, words("The tool without which it can't be set, or null.")]
    exposure: Annotated[
        Literal["dry", "damp", "outdoor"], about("The worst exposure that its corrosion protection is made for.")
    ]


class Setting(Model):
    """How it is set: what an installation card says for every size."""

    drilling: Annotated[
        Literal["hammer", "core", "none"],
        about("Rotary hammer with carbide bit, diamond core, or no hole (cast-in, driven)."),
    ]
    bit: Annotated[str | None, words("Bit and its tolerance standard, e.g. carbide to ANSI B212.15.")] = None
    cleaning: Annotated[
        tuple[Sentence, ...],
        Field(strict=False, max_length=12, description="Cleaning of the hole, step by step."),
    ]
    steps: Annotated[
        tuple[Sentence, ...],
        Field(strict=False, min_length=1, max_length=12, description="Setting, step by step."),
    ]
    checks: Annotated[
        tuple[Sentence, ...],
        Field(strict=False, max_length=12, description="How to see that it is set."),
    ]
    do_not: Annotated[
        tuple[Sentence, ...],
        Field(strict=False, max_length=12, description="What must not be done."),
    ]
    cautions: Annotated[
        tuple[Sentence, ...],
        Field(strict=False, max_length=12, description="What can hurt whoever sets it or stands below."),
    ] = ()
    notes: Annotated[
        tuple[Sentence, ...], Field(strict=False, max_length=12, description="Further notes for the installer.")
    ] = ()


class Cartridge(Model):
    """The cartridge of an adhesive, as ordered."""

    name: Annotated[str, words("Cartridge, as ordered.")]
    volume: Annotated[float, quantity("volume", "Volume of adhesive that comes out of one.")]
    pack: Annotated[int, Field(ge=1, le=100_000, description="Cartridges in a package.")] = 1


class Charge(Model):
    """What drives a fastener besides the tool: a powder charge, a can of gas."""

    name: Annotated[str, words("Charge, as ordered.")]
    fastenings: Annotated[int, Field(ge=1, le=100_000, description="Fastenings that one serves.")]
    pack: Annotated[int, Field(ge=1, le=100_000, description="Charges in a package.")] = 1


class Commercial(Model):
    """What a take-off needs."""

    cost_index: Annotated[float, Field(gt=0, le=1e6, description="Cost of one, relative to others; no currency.")]
    minutes: Annotated[float, Field(gt=0, le=1e4, description="Setting time of one, minutes.")]
    pack: Annotated[int, Field(ge=1, le=100_000, description="Pieces in a package.")]
    bit: Annotated[str | None, words("Bit, as ordered.")] = None
    bit_life: Annotated[int | None, Field(ge=1, le=100_000, description="Holes that a bit lasts.")] = None
    cartridge: Annotated[Cartridge | None, about("Cartridge of an adhesive.")] = None
    charge: Annotated[Charge | None, about("Charge of a driven fastener.")] = None


class Head(Model):
    """The head of a cast-in bolt or stud."""

    a_brg: Annotated[float, area("Net bearing area A_brg of the head (17.6.3.2.2a).")]
    welded_stud: Annotated[
        bool, about("Headed stud welded to its plate: V_sa is A_se,V f_uta (17.7.1.2a), not 0.6 of it.")
    ] = False


class Hook(Model):
    """The hook of a cast-in J- or L-bolt."""

    e_h: Annotated[float, length("Distance e_h from the inner face of the shaft to the tip (17.6.3.2.2b).")]


class ThreadEngagement(Model):
    """How far the rod goes into an internal thread."""

    least: Annotated[float, length("Least engagement of the rod.")]
    most: Annotated[float, length("Engagement at which the rod touches the bottom.")]


class SizeData(Model):
    """One size without its embedments."""

    size: Annotated[
        str,
        Field(pattern=r"^[A-Za-z0-9][A-Za-z0-9/.-]{0,15}$", description="Size as printed: 3/8, M10."),
    ]
    d_a: Annotated[float, length("Outside diameter of the anchor d_a (chapter 2).")]
    thread: Annotated[
        str | None,
        Field(
            pattern=r"^(M[1-9]\d?|[1-9]|([1-9]-)?[1-9]\d?/(2|4|8|16|32))$",
            description="Nominal thread for the rod: 3/8, 1-1/4, M10.",
        ),
    ] = None
    thread_engagement: Annotated[ThreadEngagement | None, about("Reach of the rod in an internal thread.")] = None
    a_se: Annotated[float, area("Effective area A_se,N (17.6.1.2), of the part of least strength.")]
    f_uta: Annotated[float, stress("Specified tensile strength f_uta of that part (17.6.1.2).")]
    f_ya: Annotated[float, stress("Specified yield strength f_ya of that part (17.6.1.2).")]
    ductile: Annotated[bool, about("Ductile steel element by chapter 2, for phi (Table 17.5.3).")]
    head: Annotated[Head | None, about("Head of a cast-in anchor.")] = None
    hook: Annotated[Hook | None, about("Hook of a cast-in anchor.")] = None
    cost_index: Annotated[
        float | None,
        Field(gt=0, le=1e6, description="Cost of one of this size, on the scale of the family; absent: the family's."),
    ] = None
    minutes: Annotated[
        float | None,
        Field(gt=0, le=1e4, description="Setting time of one of this size, minutes; absent: the family's."),
    ] = None


class Size(SizeData):
    """One size of a family."""

    embedments: Annotated[
        tuple[Embedment, ...],
        Field(strict=False, min_length=1, max_length=20, description="Embedments, each once."),
    ]


class FamilyData(Model):
    """The fields of a family, each right by itself; rules between them aren't applied."""

    format: Annotated[Literal[1], about("Format of the file: 1.")]
    id: Annotated[
        str, Field(pattern=r"^[a-z0-9-]{1,40}$", description="Lower-case letters, digits, hyphens; never reused.")
    ]
    name: Annotated[str, words("Name in words.")]
    invented: Annotated[bool, about("The figures are made up. False: `source` is required.")]
    source: Annotated[Source | None, about("Where the figures come from.")] = None
    principle: Annotated[Principle, about("How it holds, in the words of ACI 355.2 and 355.4.")]
    basis: Annotated[
        Basis,
        about(
            "What the figures are: qualified (ACI 355.2), allowable_table, cast_in (17.6.3.2.2), adhesive (ACI 355.4),"
            " en (European assessment)."
        ),
    ]
    units: Annotated[Units, about("Unit system of every number in the file.")]
    material: Material
    traits: Traits
    setting: Setting
    commercial: Commercial | None = None
    sizes: Annotated[
        tuple[Size, ...], Field(strict=False, min_length=1, max_length=40, description="Sizes, each once.")
    ]
    tables: Annotated[
        tuple[AllowableTable, ...],
        Field(strict=False, max_length=20, description="Tables of allowable service loads, if any."),
    ] = ()


class Family(FamilyData):
    """An anchor family: what a catalogue file holds."""

    @model_validator(mode="after")
    def _consistent(self) -> Self:
        consistency.refuse_first(consistency.family_flaws(self))
        return self


def family_json_schema() -> dict[str, Any]:
    """The schema of one family as JSON Schema, draft 2020-12. Rules between fields stand in `consistency`."""
    return {"$schema": "https://json-schema.org/draft/2020-12/schema", **Family.model_json_schema()}
