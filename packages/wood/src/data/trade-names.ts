/** Rows of different tables that are one wood: the other row's name, and ours. */
export const SAME_WOOD: Readonly<Record<string, string>> = {
  'White oak, commercial': 'Oak, white (commercial)',
  'Red oak, commercial': 'Oak, red (commercial)',
  'Red oak, California': 'Oak, California black',
  'Red oak: water, laurel, willow': 'Oak, water, laurel and willow',
  'White oak, live': 'Oak, live',
  'White oak, Oregon white': 'Oak, Oregon white',
  'White oak, overcup': 'Oak, overcup',
  'Mahogany, true': 'Mahogany',
  Afrormosia: 'Kokrodua (afrormosia)',
  Andiroba: 'Andiroba (crabwood)',
  'Mahogany, African': 'Khaya (African mahogany)',
};

/**
 * Species that table 13-5 has no row for because the trade sells them as a group, and the group's
 * row. Which species make up a group: value from memory.
 */
export const GROUP_ROW: Readonly<Record<string, string>> = {
  'Oak, white': 'Oak, white (commercial)',
  'Oak, bur': 'Oak, white (commercial)',
  'Oak, chestnut': 'Oak, white (commercial)',
  'Oak, swamp white': 'Oak, white (commercial)',
  'Oak, northern red': 'Oak, red (commercial)',
  'Oak, southern red': 'Oak, red (commercial)',
  'Oak, cherrybark': 'Oak, red (commercial)',
  'Hickory, mockernut': 'Hickory, true',
  'Hickory, pignut': 'Hickory, true',
  'Hickory, shagbark': 'Hickory, true',
  'Hickory, shellbark': 'Hickory, true',
  'Meranti, dark red': 'Meranti',
  'Meranti, light red': 'Meranti',
};

/**
 * The woods tables are mostly made of: named first where a text could mean several. Common
 * practice, no source.
 */
export const USUAL_WOODS: readonly string[] = [
  'Oak, white',
  'Oak, northern red',
  'Maple, sugar',
  'Maple, red',
  'Cherry, black',
  'Walnut, black',
  'Ash, white',
  'Birch, yellow',
  'Hickory, shagbark',
  'Pine, eastern white',
  'Pine, ponderosa',
  'Pine, longleaf',
  'Douglas-fir, coast',
  'Spruce, Sitka',
];

/**
 * Woods that people call otherwise than the words of their name in the index turned round: `eastern
 * redcedar`, not `eastern redcedar cedar`. Names of the trade where the index has a name of its own.
 */
export const SAID: Readonly<Record<string, string>> = {
  'Afzelia (doussie)': 'afzelia',
  'Andiroba (crabwood)': 'andiroba',
  'Apitong (keruing)': 'keruing',
  'Cedar, eastern redcedar': 'eastern redcedar',
  'Cedar, western redcedar': 'western redcedar',
  'Hickory, pecan': 'pecan',
  'Khaya (African mahogany)': 'African mahogany',
  'Kokrodua (afrormosia)': 'afrormosia',
  'Magnolia, cucumbertree': 'cucumbertree',
  'Magnolia, sweetbay': 'sweetbay',
  'Oak, water, laurel and willow': 'water, laurel or willow oak',
  'Sipo (utile)': 'sipo',
};

/** Woods whose name begins with a name of a place or a person, and keeps its capital within a sentence. */
export const PROPER: readonly string[] = [
  'Douglas-fir',
  'Parana pine',
  'Santa Maria',
  'Spanish-cedar',
];

/** What the lumber trade also calls a wood. Common practice, no source. */
export const ALSO_CALLED: Readonly<Record<string, readonly string[]>> = {
  'Oak, northern red': ['red oak'],
  'Maple, sugar': ['hard maple', 'rock maple', 'maple, hard (sugar)'],
  'Hickory, pecan': ['pecan'],
  'Basswood, American': ['basswood', 'linden', 'American linden'],
  'Birch, paper': ['white birch'],
  'Birch, sweet': ['black birch', 'cherry birch'],
  Butternut: ['white walnut'],
  Honeylocust: ['honey locust'],
  Tamarack: ['eastern larch', 'hackmatack'],
  'Aspen, quaking': ['trembling aspen'],
  'Elm, slippery': ['red elm'],
  'Elm, American': ['white elm'],
  Obeche: ['ayous', 'wawa'],
  Azobe: ['ekki'],
  Limba: ['korina', 'frake'],
  Merbau: ['kwila'],
  Okoume: ['gaboon'],
  Purpleheart: ['amaranth'],
  'Yellow-poplar': ['tulip poplar', 'tulipwood', 'tuliptree', 'poplar'],
  Baldcypress: ['cypress', 'bald cypress'],
  'Cedar, western redcedar': ['western red cedar'],
  'Cedar, eastern redcedar': ['eastern red cedar', 'aromatic cedar', 'aromatic red cedar'],
  'Cedar, northern white': ['northern white-cedar'],
  'Cedar, yellow': ['Alaska cedar', 'Alaska yellow cedar'],
  Mahogany: ['genuine mahogany', 'Honduras mahogany', 'bigleaf mahogany'],
  'Khaya (African mahogany)': ['khaya'],
  'Kokrodua (afrormosia)': ['afrormosia', 'kokrodua'],
  'Apitong (keruing)': ['apitong', 'keruing'],
  'Andiroba (crabwood)': ['andiroba', 'crabwood'],
  Sweetgum: ['sweet gum', 'red gum'],
  'Tupelo, black': ['black gum', 'blackgum'],
  Hackberry: ['common hackberry'],
  'Spanish-cedar': ['cedro'],
  Jatoba: ['Brazilian cherry'],
  Ipe: ['Brazilian walnut', 'lapacho'],
  // Words that meant these before European woods came go on meaning them.
  'Walnut, black': ['walnut', 'American walnut', 'American black walnut'],
  'Cherry, black': ['cherry', 'American cherry'],
  'Beech, American': ['beech'],
  'Alder, red': ['alder'],
  'Sycamore, American': ['sycamore'],
  'Oak, European': ['English oak', 'French oak', 'chêne', 'Eiche', 'quercia', 'roble'],
  'Beech, European': ['hêtre', 'Buche', 'Rotbuche', 'faggio', 'haya'],
  'Ash, European': ['frêne', 'Esche', 'frassino', 'fresno'],
  'Walnut, European': ['English walnut', 'noyer', 'Nussbaum', 'noce', 'nogal'],
  'Maple, sycamore': ['European sycamore', 'European maple', 'érable sycomore', 'Bergahorn'],
  'Cherry, European': ['wild cherry', 'merisier', 'Kirsche', 'Kirschbaum', 'ciliegio', 'cerezo'],
  'Pear, European': ['pear', 'poirier', 'Birnbaum', 'pero'],
  'Elm, European': ['orme', 'Ulme', 'Rüster', 'olmo'],
  'Birch, European': ['silver birch', 'bouleau', 'Birke', 'betulla', 'abedul'],
  'Alder, black': ['common alder', 'European alder', 'aulne', 'Erle', 'Schwarzerle', 'ontano'],
  'Poplar, European': ['peuplier', 'Pappel', 'pioppo', 'chopo'],
  'Spruce, Norway': ['whitewood', 'épicéa', 'Fichte', 'abete rosso'],
  'Pine, Scots': ['Scotch pine', 'European redwood', 'pin sylvestre', 'Kiefer', 'pino silvestre'],
  'Larch, European': ['mélèze', 'Lärche', 'larice'],
  'Fir, European silver': ['sapin', 'Tanne', 'Weißtanne', 'abete bianco'],
  'Locust, black': ['robinia', 'false acacia', 'Robinie', 'robinier'],
  'Sipo (utile)': ['sipo', 'utile'],
  'Afzelia (doussie)': ['afzelia', 'doussie'],
};

/** Trade words that cover several woods: one has to be chosen. Common practice, no source. */
export const COVERS_SEVERAL: Readonly<Record<string, readonly string[]>> = {
  'soft maple': ['Maple, red', 'Maple, silver', 'Maple, bigleaf'],
  'southern yellow pine': ['Pine, longleaf', 'Pine, shortleaf', 'Pine, loblolly', 'Pine, slash'],
  'southern pine': ['Pine, longleaf', 'Pine, shortleaf', 'Pine, loblolly', 'Pine, slash'],
};
