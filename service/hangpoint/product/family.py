"""The one schema of an anchor family: for catalogue files, products in a request, and the published JSON Schema.

Words of ACI 355.2 and 355.4; symbols and clauses of ACI 318-19 chapter 17 where nothing else is said. A file states
its numbers in one unit system: "us" in, in2, psi, lbf, ft*lbf; "si" mm, mm2, MPa, kN, N*m. The factors k_cr and
k_uncr are those of N_b = k lambda_a sqrt(f'c) h_ef^1.5 and so differ by system: 17 to 24 in "us" (lbf, psi, in), 7 to
10 in "si" (N, MPa, mm).

A pullout strength is a number, the word "not_governing", or absent. Absent means: not qualified in that state.
"""

from typing import Annotated, Any, Literal, Self

from pydantic import BaseModel, ConfigDict, Discriminator, Field, Tag, model_validator

from hangpoint.product import consistency

FORMAT = 1

Units = Literal["us", "si"]
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
Base = Literal["concrete", "deck", "masonry", "hollow_core"]
Lightweight = Literal["lambda_a", "tested", "none"]

UNITS_OF_KIND = {
    "length": {"us": "in", "si": "mm"},
    "area": {"us": "in2", "si": "mm2"},
    "stress": {"us": "psi", "si": "MPa"},
    "force": {"us": "lbf", "si": "kN"},
    "torque": {"us": "ft*lbf", "si": "N*m"},
}
"""Unit of each kind of quantity by the unit system of a file; the schema repeats it as ``x-unit``."""


def _quantity(kind: str, text: str) -> Any:
    units = UNITS_OF_KIND[kind]
    return Field(
        ge=0.001,
        le=10_000_000,
        description=f"{text} Unit: {units['us']} (us), {units['si']} (si).",
        json_schema_extra={"x-unit": dict(units)},
    )


def _length(text: str) -> Any:
    return _quantity("length", text)


def _area(text: str) -> Any:
    return _quantity("area", text)


def _stress(text: str) -> Any:
    return _quantity("stress", text)


def _force(text: str) -> Any:
    return _quantity("force", text)


def _about(text: str) -> Any:
    return Field(description=text)


def _text(text: str) -> Any:
    return Field(min_length=1, max_length=256, description=text)


def _pullout(text: str) -> Any:
    units = UNITS_OF_KIND["force"]
    return Field(
        description=f"{text} A number, the word not_governing, or absent: not qualified in that state."
        f" Unit: {units['us']} (us), {units['si']} (si).",
        json_schema_extra={"x-unit": dict(units)},
    )


def _branch(value: Any) -> str:
    return "word" if isinstance(value, str) else "number"


BRANCHES = ("number", "word")
"""Parts that a choice between number and word adds to the place of an error; not part of a JSON pointer."""

Sentence = Annotated[str, Field(min_length=1, max_length=256)]
Pullout = Annotated[
    Annotated[Annotated[float, Field(ge=0.001, le=10_000_000)], Tag("number")]
    | Annotated[Literal["not_governing"], Tag("word")],
    Discriminator(_branch),
]


class Model(BaseModel):
    """Base of the schema: unknown fields, coercions and non-finite numbers are refused; objects can't change."""

    model_config = ConfigDict(
        extra="forbid",
        strict=True,
        allow_inf_nan=False,
        frozen=True,
        field_title_generator=lambda name, _info: name,
    )


class Source(Model):
    """Where supplied product data come from."""

    document: Annotated[str, _text("Title and number of the document that the numbers are copied from.")]
    date: Annotated[
        str,
        Field(
            pattern=r"^(19|20)\d{2}(-(0[1-9]|1[0-2])(-(0[1-9]|[12]\d|3[01]))?)?$",
            description="Date of that document: 2024, 2024-05 or 2024-05-31.",
        ),
    ]
    edition: Annotated[str | None, _text("Edition, revision or reissue.")] = None
    standard: Annotated[str, _text("Standard that the product was evaluated to, with its edition.")]


class Material(Model):
    """Steel and corrosion protection."""

    steel: Annotated[
        Literal["carbon", "stainless_304", "stainless_316", "high_alloy"], _about("Steel of the load-carrying parts.")
    ]
    coating: Annotated[
        Literal["none", "zinc", "zinc_mechanical", "hot_dip"],
        _about("Coating: none, electroplated zinc, mechanically applied zinc, or hot-dip galvanised."),
    ]
    grade: Annotated[str | None, _text("Material standard and grade, if stated.")] = None


class Suitability(Model):
    """What a product is fit for, as far as a check asks."""

    removable: Annotated[bool, _about("Can be taken out. It must not be set again (17.1.3).")]
    internally_threaded: Annotated[bool, _about("Takes a rod in an internal thread; `thread` is then stated.")]
    bases: Annotated[
        tuple[Base, ...],
        Field(strict=False, min_length=1, max_length=4, description="Bases that the product is made for."),
    ]
    tension_overhead: Annotated[bool, _about("May hang loads from a soffit. False: refused overhead.")]
    sustained_tension: Annotated[bool, _about("May carry tension that stays (17.5.2.2 for adhesive anchors).")]


class Traits(Suitability):
    """What the family is fit for. In a file every trait is stated."""

    flush: Annotated[bool, _about("Ends flush with the face of the base once set.")]
    cracked_qualified: Annotated[
        bool, _about("One embedment at least is qualified for cracked concrete (ACI 355.2); agrees with n_p_cr.")
    ]
    seismic_qualified: Annotated[
        bool, _about("One embedment at least is qualified for earthquake (17.10.3); agrees with `seismic`.")
    ]
    training: Annotated[bool, _about("Only trained or certified people may set it.")]
    setting_tool: Annotated[str | None, _text("The tool without which it can't be set, or null.")]
    exposure: Annotated[
        Literal["dry", "damp", "outdoor"], _about("The worst exposure that its corrosion protection is made for.")
    ]


class Setting(Model):
    """How it is set: what an installation card says for every size."""

    drilling: Annotated[
        Literal["hammer", "core", "none"],
        _about("Rotary hammer with carbide bit, diamond core, or no hole (cast-in, driven)."),
    ]
    bit: Annotated[str | None, _text("Bit and its tolerance standard, e.g. carbide to ANSI B212.15.")] = None
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
    notes: Annotated[
        tuple[Sentence, ...], Field(strict=False, max_length=12, description="Further notes for the installer.")
    ] = ()


class Commercial(Model):
    """What a take-off needs."""

    cost_index: Annotated[float, Field(gt=0, le=1e6, description="Cost of one, relative to others; no currency.")]
    minutes: Annotated[float, Field(gt=0, le=1e4, description="Setting time of one, minutes.")]
    pack: Annotated[int, Field(ge=1, le=100_000, description="Pieces in a package.")]
    bit: Annotated[str | None, _text("Bit, as ordered.")] = None
    bit_life: Annotated[int | None, Field(ge=1, le=100_000, description="Holes that a bit lasts.")] = None


class Hole(Model):
    """The drilled hole."""

    diameter: Annotated[float, _length("Nominal diameter of the bit.")]
    depth: Annotated[float, _length("Least depth of the drilled hole.")]


class Embedment(Model):
    """One embedment of one size: one row of the column table."""

    h_ef: Annotated[float, _length("Effective embedment depth h_ef (chapter 2).")]
    h_nom: Annotated[float | None, _length("Nominal embedment, the depth that is set and marked.")] = None
    hole: Annotated[Hole | None, _about("Hole to drill; required in the file of a drilled anchor.")] = None
    torque: Annotated[
        float | None, _quantity("torque", "Installation torque; null where none is applied (17.9.2 then: not torqued).")
    ] = None
    h_min: Annotated[float, _length("Least thickness of the member (17.9.4).")]
    thickness_tested: Annotated[bool, _about("h_min rests on tests, so the limits of h_ef in 17.9.4 don't hold.")] = (
        False
    )
    c_min: Annotated[float, _length("Least edge distance, centre of anchor to edge (17.9.2).")]
    s_min: Annotated[float, _length("Least spacing of anchors (17.9.2).")]
    spacing_tested: Annotated[
        bool, _about("c_min and s_min rest on tests by ACI 355.2 and may be below Table 17.9.2.")
    ] = False
    c_ac: Annotated[
        float | None, _length("Critical edge distance c_ac (17.6.2.6); absent: Table 17.9.5, where a request may.")
    ] = None
    category: Annotated[
        Literal[1, 2, 3] | None, _about("Anchor category by ACI 355.2 or 355.4, for phi (Table 17.5.3).")
    ] = None
    k_cr: Annotated[
        float | None,
        Field(ge=1, le=24, description="k_c by tests, cracked (17.6.2.2.1). 17 to 24 in us, 7 to 10 in si."),
    ] = None
    k_uncr: Annotated[
        float | None,
        Field(ge=1, le=24, description="k_c by tests, uncracked (17.6.2.2.1). 17 to 24 in us, 7 to 10 in si."),
    ] = None
    n_p_cr: Annotated[Pullout | None, _pullout("Pullout strength N_p,cr in cracked concrete (17.6.3.1).")] = None
    n_p_uncr: Annotated[Pullout | None, _pullout("Pullout strength N_p,uncr in uncracked concrete (17.6.3.1).")] = None
    n_p_eq: Annotated[Pullout | None, _pullout("Pullout strength N_p,eq by simulated seismic tests (17.10.3).")] = None
    n_exponent: Annotated[
        float | None,
        Field(ge=0, le=1, description="n of N_p (f'c / f_c_ref)^n; required beside a pullout strength in figures."),
    ] = None
    f_c_ref: Annotated[
        float | None, _stress("Concrete strength that N_p is stated for; absent: 2,500 psi, that of the tests.")
    ] = None
    v_sa: Annotated[float | None, _force("Steel strength in shear V_sa by tests (17.7.1.2).")] = None
    v_sa_eq: Annotated[
        float | None, _force("Steel strength in shear V_sa,eq by simulated seismic tests (17.10.3).")
    ] = None
    seismic: Annotated[bool, _about("Qualified for earthquake at this embedment (17.10.3).")] = False
    lightweight: Annotated[
        Lightweight,
        _about(
            "Lightweight concrete: lambda_a of Table 17.2.4.1 on N_p too; tested: N_p already holds there;"
            " none: not allowed."
        ),
    ] = "lambda_a"


class Head(Model):
    """The head of a cast-in bolt or stud."""

    a_brg: Annotated[float, _area("Net bearing area A_brg of the head (17.6.3.2.2a).")]


class Hook(Model):
    """The hook of a cast-in J- or L-bolt."""

    e_h: Annotated[float, _length("Distance e_h from the inner face of the shaft to the tip (17.6.3.2.2b).")]


class ThreadEngagement(Model):
    """How far the rod goes into an internal thread."""

    least: Annotated[float, _length("Least engagement of the rod.")]
    most: Annotated[float, _length("Engagement at which the rod touches the bottom.")]


class SizeData(Model):
    """One size without its embedments."""

    size: Annotated[
        str,
        Field(pattern=r"^[A-Za-z0-9][A-Za-z0-9/.-]{0,15}$", description="Size as printed: 3/8, M10."),
    ]
    d_a: Annotated[float, _length("Outside diameter of the anchor d_a (chapter 2).")]
    thread: Annotated[
        str | None,
        Field(
            pattern=r"^(M[1-9]\d?|[1-9]|([1-9]-)?[1-9]\d?/(2|4|8|16|32))$",
            description="Nominal thread for the rod: 3/8, 1-1/4, M10.",
        ),
    ] = None
    thread_engagement: Annotated[ThreadEngagement | None, _about("Reach of the rod in an internal thread.")] = None
    a_se: Annotated[float, _area("Effective area A_se,N (17.6.1.2), of the part of least strength.")]
    f_uta: Annotated[float, _stress("Specified tensile strength f_uta of that part (17.6.1.2).")]
    f_ya: Annotated[float, _stress("Specified yield strength f_ya of that part (17.6.1.2).")]
    ductile: Annotated[bool, _about("Ductile steel element by chapter 2, for phi (Table 17.5.3).")]
    head: Annotated[Head | None, _about("Head of a cast-in anchor.")] = None
    hook: Annotated[Hook | None, _about("Hook of a cast-in anchor.")] = None


class Size(SizeData):
    """One size of a family."""

    embedments: Annotated[
        tuple[Embedment, ...],
        Field(strict=False, min_length=1, max_length=20, description="Embedments, each once."),
    ]


class AllowableRow(Model):
    """One allowable load."""

    size: Annotated[str, Field(max_length=16, description="A size of this family.")]
    h_ef: Annotated[float, _length("An embedment of that size.")]
    allowable: Annotated[float, _force("Allowable service load.")]


class AllowableTable(Model):
    """Allowable service loads of the family; common practice, not chapter 17."""

    title: Annotated[str, _text("What the table is.")]
    direction: Annotated[Literal["tension", "shear"], _about("Direction of the load.")]
    base: Annotated[Base, _about("Base material of the tests.")]
    state: Annotated[Literal["cracked", "uncracked"], _about("State of the concrete in the tests.")]
    f_c: Annotated[float, _stress("Strength of the base in the tests.")]
    safety_factor: Annotated[float, Field(ge=1, le=20, description="Mean ultimate load divided by the allowable.")]
    rows: Annotated[
        tuple[AllowableRow, ...],
        Field(strict=False, min_length=1, max_length=400, description="One row a size and embedment."),
    ]


class Family(Model):
    """An anchor family: what a catalogue file holds."""

    format: Annotated[Literal[1], _about("Format of the file: 1.")]
    id: Annotated[
        str, Field(pattern=r"^[a-z0-9-]{1,40}$", description="Lower-case letters, digits, hyphens; never reused.")
    ]
    name: Annotated[str, _text("Name in words.")]
    invented: Annotated[bool, _about("The figures are made up. False: `source` is required.")]
    source: Annotated[Source | None, _about("Where the figures come from.")] = None
    principle: Annotated[Principle, _about("How it holds, in the words of ACI 355.2 and 355.4.")]
    basis: Annotated[
        Basis,
        _about(
            "What the figures are: qualified (ACI 355.2), allowable_table, cast_in (17.6.3.2.2), adhesive (ACI 355.4),"
            " en (European assessment)."
        ),
    ]
    units: Annotated[Units, _about("Unit system of every number in the file.")]
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

    @model_validator(mode="after")
    def _consistent(self) -> Self:
        consistency.refuse_first(consistency.family_flaws(self))
        return self


def family_json_schema() -> dict[str, Any]:
    """The schema of one family as JSON Schema, draft 2020-12. Rules between fields stand in `consistency`."""
    return {"$schema": "https://json-schema.org/draft/2020-12/schema", **Family.model_json_schema()}
