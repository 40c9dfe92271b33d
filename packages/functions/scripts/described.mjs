/** What of a function's description is read once someone reads about it, and by nothing that works a formula out. */
export const WORDS = ['answers', 'source', 'example', 'notes'];
/** Where functions are described. */
export const DESCRIBED = /\/packages\/(?:wood|functions)\/src\/[^?]+\.ts$/;

/** Where is told how standard functions are worked out, a family to a file. */
const FAMILIES =
  /\/packages\/functions\/src\/computing\/(?:arrays|conditions|database|dates|digits|families|finance|logical|lookups|normal|numbers|statistics|words)\.ts$/;

/** A module without these words; undefined where it describes no function. */
export function withoutWords(code, tree) {
  const found = descriptionsIn(tree);
  if (found.length === 0) return undefined;
  const words = found.flatMap(({ keys }) => WORDS.flatMap((key) => keys.get(key) ?? []));
  return { code: without(code, words), count: found.length };
}

/** The functions that a module has, by name: their descriptions, and how standard ones are worked out. */
export function functionsIn(tree, path) {
  const described = descriptionsIn(tree).map(({ keys, node }) => ({
    name: keys.get('name').value.value,
    node,
  }));
  const computed = FAMILIES.test(path) ? computedIn(tree) : [];
  return [...described, ...computed];
}

/** Where is told what an argument, a column or a joint means, beside functions. */
export const TOLD =
  /\/packages\/(?:(?:wood|functions)\/src\/[^?]+|workbook\/src\/book\/shop-tables)\.ts$/;

/** Which argument of `wood/src/arguments.ts` says what one means. */
const SAYS_MEANS = { numberOf: 2, lengthOf: 1, countOf: 1, textOf: 1, rangeOf: 2 };

/** A module that no longer says what things mean, which is read by whoever writes a workbook; undefined where none is there. */
export function withoutMeanings(code, tree) {
  const at = new Map(
    tree.body.flatMap(({ type, source, specifiers }) =>
      type === 'ImportDeclaration' && /arguments|@kerfbook\/wood/.test(source.value)
        ? specifiers.flatMap(({ local }) =>
            local.name in SAYS_MEANS ? [[local.name, SAYS_MEANS[local.name]]] : [],
          )
        : [],
    ),
  );
  walk(tree.body, (node) => {
    const of = node.type === 'VariableDeclarator' ? node.init : node;
    const place = of?.params?.findIndex(({ name }) => name === 'means') ?? -1;
    if (place >= 0 && node.id?.name !== undefined) at.set(node.id.name, place);
  });
  const isText = (node) => node?.type === 'Literal' && typeof node.value === 'string';
  const isSaid = (node) => isText(node) || node?.type === 'TemplateLiteral';
  const said = [];
  walk(tree.body, (node) => {
    if (node.type === 'Property' && (node.key.name ?? node.key.value) === 'means')
      said.push(node.value);
    if (node.type === 'CallExpression' && at.has(node.callee.name))
      said.push(node.arguments[at.get(node.callee.name)]);
  });
  const found = said.filter(isSaid).sort((a, b) => b.start - a.start);
  if (found.length === 0) return undefined;
  return found.reduce(
    (left, { start, end }) => `${left.slice(0, start)}''${left.slice(end)}`,
    code,
  );
}

/** Where is told which columns tables have, and how they are begun: a page that begins no table reads their heads. */
export const COLUMNS = /\/packages\/workbook\/src\/book\/shop-tables\.ts$/;

/** A module whose columns have their heads alone; undefined where it has none. */
export function headsAlone(code, tree) {
  const behind = [];
  walk(tree.body, (node) => {
    if (node.type !== 'CallExpression' || !['column', 'rare', 'words'].includes(node.callee.name))
      return;
    const [heads, ...more] = node.arguments;
    if (heads?.type === 'Literal' && more.length > 0)
      behind.push({ start: heads.end, end: more.at(-1).end });
  });
  if (behind.length === 0) return undefined;
  return behind
    .sort((a, b) => b.start - a.start)
    .reduce((left, { start, end }) => left.slice(0, start) + left.slice(end), code);
}

/** The comma behind what is taken out goes with it. */
function without(code, nodes) {
  let left = code;
  for (const { start, end } of [...nodes].sort((a, b) => b.start - a.start)) {
    left = left.slice(0, start) + left.slice(end).replace(/^\s*,/, '');
  }
  return left;
}

/** Values of properties that are a function's by its name in capitals. */
function computedIn(tree) {
  const found = [];
  walk(tree.body, (node) => {
    if (node.type !== 'ObjectExpression') return;
    for (const one of node.properties) {
      const name = one.key?.name ?? one.key?.value;
      if (
        one.type === 'Property' &&
        !one.computed &&
        !one.shorthand &&
        !one.method &&
        /^[A-Z][A-Z0-9.]*$/.test(name)
      ) {
        found.push({ name, node: one.value });
      }
    }
  });
  return found;
}

function walk(node, visit) {
  if (node === null || typeof node !== 'object') return;
  if (Array.isArray(node)) {
    for (const one of node) walk(one, visit);
    return;
  }
  if (typeof node.type === 'string') visit(node);
  for (const key in node) if (key !== 'parent') walk(node[key], visit);
}

/** Descriptions of functions that a module has: objects with a name, a task, a question they answer and an example. */
function descriptionsIn(tree) {
  const found = [];
  walk(tree.body, (node) => {
    if (node.type !== 'ObjectExpression') return;
    const keys = new Map(node.properties.map((one) => [one.key?.name ?? one.key?.value, one]));
    if (['name', 'task', 'answers', 'args', 'example'].every((key) => keys.has(key))) {
      found.push({ node, keys });
    }
  });
  return found;
}
