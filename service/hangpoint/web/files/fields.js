/** The fields that the page shows by itself, by their columns; every other one is found under "another field". */

/**
 * Groups of fields: `kind` is the column that decides which of the fields `of` it are there; a group with a `principle`
 * is there where the family that is chosen has it.
 */
export const GROUPS = [
  {
    title: "What hangs",
    first: ["id"],
    kind: "hangs.kind",
    of: {
      pipe: [
        ...["hangs.material", "hangs.size", "hangs.schedule", "hangs.contents", "hangs.sprinkler"],
        ...["hangs.run.spans", "hangs.run.support"],
      ],
      weight: ["hangs.weight", "hangs.nature"],
      forces: [
        ...["hangs.components.0.nature", "hangs.components.0.tension", "hangs.components.0.shear_x"],
        ...["hangs.components.0.shear_y", "hangs.components.1.nature", "hangs.components.1.tension"],
        ...["hangs.components.1.shear_x", "hangs.components.1.shear_y"],
      ],
    },
  },
  { title: "Rod and anchor", paths: ["rod.size", "anchor.family", "product"] },
  {
    title: "How the adhesive is set",
    principle: "adhesive",
    paths: [
      ...["anchor.adhesive.temperature", "anchor.adhesive.hole", "anchor.adhesive.concrete_age"],
      ...["anchor.adhesive.certified_installer", "anchor.adhesive.continuous_inspection"],
    ],
  },
  {
    title: "Base",
    kind: "base.kind",
    of: {
      concrete: ["base.strength.f_c", "base.density", "base.state"],
      deck: [
        ...["base.strength.f_c", "base.density", "base.state", "base.deck.flute", "base.deck.flute_width"],
        ...["base.deck.offset", "base.deck.cover"],
      ],
      masonry: [
        ...["base.masonry.units", "base.masonry.material", "base.masonry.f_m", "base.masonry.location"],
        "base.masonry.joint_distance",
      ],
      hollow_core: ["base.hollow_core.location", "base.hollow_core.cover", "base.hollow_core.strand_distance"],
      steel: [],
      wood: [],
      unknown: [],
    },
    paths: ["base.thickness", "base.face"],
  },
  {
    title: "Edges of the base, seen from the anchor",
    paths: ["base.edges.x_minus", "base.edges.x_plus", "base.edges.y_minus", "base.edges.y_plus"],
  },
  { title: "Building", paths: ["seismic.category"] },
];

/** What EN 1992-4 asks for in place of what ACI 318-19 does. */
const BY_EN = {
  "base.strength.f_c": ["base.strength.class"],
  "base.state": ["base.state", "base.bar_spacing"],
  "seismic.category": [],
};

/** Words that a check by EN 1992-4 only refuses. */
const NOT_BY_EN = {
  "base.kind": ["masonry", "hollow_core", "deck"],
  "base.density": ["sand_lightweight", "all_lightweight"],
};

/** The words of a field that can be chosen under a design code. */
export function wordsUnder(code, path, words) {
  const refused = code === "en1992_4" ? (NOT_BY_EN[path] ?? []) : [];
  return words.filter((word) => !refused.includes(word));
}

/** By design code an invented pipe under an invented slab. */
export const EXAMPLES = {
  aci318_19: {
    "hangs.kind": "pipe",
    "hangs.material": "steel",
    "hangs.size": "4",
    "hangs.schedule": "40",
    "hangs.contents": "water",
    "hangs.sprinkler": "no",
    "hangs.run.spans": "10 ft; 12 ft; 10 ft",
    "hangs.run.support": "1",
    "rod.size": "5/8",
    "anchor.family": "wedge-expansion-zinc",
    product: "wedge-expansion-zinc/1/2/3.25",
    "base.kind": "concrete",
    "base.strength.f_c": "4000 psi",
    "base.density": "normalweight",
    "base.state": "cracked",
    "base.thickness": "8 in",
    "base.face": "soffit",
    "base.edges.x_minus": "none",
    "base.edges.x_plus": "9 in",
    "base.edges.y_minus": "none",
    "base.edges.y_plus": "none",
    "seismic.category": "B",
  },
  en1992_4: {
    "hangs.kind": "pipe",
    "hangs.material": "steel",
    "hangs.size": "4",
    "hangs.schedule": "40",
    "hangs.contents": "water",
    "hangs.sprinkler": "no",
    "hangs.run.spans": "3 m; 3.5 m; 3 m",
    "hangs.run.support": "1",
    "rod.size": "M12",
    "anchor.family": "en-wedge-expansion-zinc",
    product: "en-wedge-expansion-zinc/M12/65",
    "base.kind": "concrete",
    "base.strength.class": "C25/30",
    "base.density": "normalweight",
    "base.state": "cracked",
    "base.bar_spacing": "wide",
    "base.thickness": "200 mm",
    "base.face": "soffit",
    "base.edges.x_minus": "none",
    "base.edges.x_plus": "220 mm",
    "base.edges.y_minus": "none",
    "base.edges.y_plus": "none",
  },
};

/** Names of fields where that of the column is no name that is said. */
export const LABELS = {
  id: "Name of the point",
  product: "Size, embedment",
  "hangs.kind": "What hangs",
  "hangs.material": "Material",
  "hangs.size": "Nominal size",
  "hangs.schedule": "Schedule or type",
  "hangs.contents": "Contents",
  "hangs.sprinkler": "Sprinkler line",
  "hangs.run.spans": "Spans of the run",
  "hangs.run.support": "Which hanger, the first is 0",
  "hangs.weight": "Weight",
  "hangs.nature": "Nature",
  "rod.size": "Rod",
  "anchor.family": "Family of anchors",
  "anchor.adhesive.temperature": "Temperature range",
  "anchor.adhesive.hole": "Hole",
  "anchor.adhesive.concrete_age": "Age of the concrete, days",
  "anchor.adhesive.certified_installer": "Certified installer",
  "anchor.adhesive.continuous_inspection": "Continuous inspection",
  "base.kind": "Kind of base",
  "base.strength.f_c": "Strength f'c",
  "base.strength.class": "Strength class",
  "base.bar_spacing": "Bars around it",
  "base.masonry.f_m": "Strength f'm",
  "base.density": "Density",
  "base.state": "Cracked or not",
  "base.thickness": "Thickness",
  "base.face": "Face",
  "base.edges.x_minus": "Edge towards -x",
  "base.edges.x_plus": "Edge towards +x",
  "base.edges.y_minus": "Edge towards -y",
  "base.edges.y_plus": "Edge towards +y",
  "seismic.category": "Seismic category",
};

/** A name for the field of a column: its own, or the last words of its path. */
export function labelOf(path) {
  if (LABELS[path]) {
    return LABELS[path];
  }
  const load = path.match(/^hangs\.components\.(\d+)\.(.+)$/);
  if (load) {
    return `Load ${Number(load[1]) + 1}, ${load[2].replaceAll("_", " ")}`;
  }
  const names = path.split(".");
  const places = names.filter((name) => /^\d+$/.test(name)).map((name) => Number(name) + 1);
  const words = names.filter((name) => !/^\d+$/.test(name));
  const text = words.slice(Math.max(1, words.length - 2)).join(" ").replaceAll("_", " ") || words.join(" ");
  return [text.charAt(0).toUpperCase() + text.slice(1), ...places].join(" ");
}

/**
 * The columns of a group of which the fields are on the page, as `fields` are stated now.
 *
 * @param principle of the family that is chosen.
 * @param code the design code.
 */
export function pathsOf(group, fields, { principle, code } = {}) {
  if (group.principle && group.principle !== principle) {
    return [];
  }
  const own = [
    ...(group.first ?? []),
    ...(group.kind ? [group.kind, ...(group.of[fields[group.kind]] ?? [])] : []),
    ...(group.paths ?? []),
  ];
  return code === "en1992_4" ? own.flatMap((path) => BY_EN[path] ?? [path]) : own;
}

/** Paths of all fields that are on the page, in their order: those of the groups, then those `added` to them. */
export function shownOf(fields, added, chosen) {
  return [...new Set([...GROUPS.flatMap((group) => pathsOf(group, fields, chosen)), ...added])];
}

/** What is stated: texts by path, of the fields that are on the page and not empty. */
export function statedOf(fields, shown) {
  const texts = shown.map((path) => [path, (fields[path] ?? "").trim()]);
  return Object.fromEntries(texts.filter(([, text]) => text));
}
