/**
 * Takes a bundled program apart into the statements of its top level, each with the others it needs. A page takes those
 * along that it reaches from what it begins with; `src/readers-program.ts` puts them together.
 *
 * `__kerfPart("name", value)` marks a value that only some pages need: without it, an element or a property goes
 * altogether, and any other value is `void 0`.
 */

/** The call that marks a part. */
export const MARK = '__kerfPart';

/** @param {string} code what stands within the program's function @param {import('estree').Program} tree */
export function unitsOf(code, tree) {
  const units = tree.body.flatMap((statement) => statementUnits(statement));
  const by = new Map(units.flatMap((unit, i) => unit.names.map((name) => [name, i])));
  return units.map(({ names, kind, node }) => [
    kind,
    segmentsOf(
      code,
      node,
      (from, holes) => refsOf(from, by, holes),
      names.map((name) => by.get(name)),
    ),
  ]);
}

/** A statement with what it declares; of `var a = 1, b = 2` each is one. */
function statementUnits(node) {
  if (node.type === 'VariableDeclaration') {
    return node.declarations.map((one) => ({
      kind: node.kind,
      names: patternNames(one.id),
      node: one,
    }));
  }
  if (node.type === 'FunctionDeclaration' || node.type === 'ClassDeclaration') {
    return [{ kind: 'own', names: [node.id.name], node }];
  }
  if (node.type === 'EmptyStatement') return [];
  return [{ kind: 'does', names: [], node }];
}

/** The text of a node, parted where a marked value stands: `[text, needs]` and `[part, segments, instead]` in turn. */
function segmentsOf(code, node, refs, own) {
  const marks = marksIn(node);
  const needed = refs(node, new Set(marks.map(({ whole }) => whole))).filter(
    (one) => !own.includes(one),
  );
  const segments = [];
  let at = node.start;
  for (const { whole, call, inList } of marks) {
    if (whole.start > at) segments.push([code.slice(at, whole.start), []]);
    const [name, value] = call.arguments;
    // Whoever makes it smaller may write a string as a template.
    const part = name.value ?? name.quasis[0].value.cooked;
    const before = whole === call ? [] : [[code.slice(whole.start, call.start), []]];
    const inner = [...before, ...segmentsOf(code, value, refs, own)];
    at = whole.end;
    if (inList && code[at] === ',') {
      inner.push([',', []]);
      at += 1;
    }
    segments.push([part, inner, inList ? '' : 'void 0']);
  }
  if (node.end > at) segments.push([code.slice(at, node.end), []]);
  const first = segments.find(([, second]) => second.length === 0);
  if (first !== undefined) first[1] = needed;
  else if (needed.length > 0) segments.push(['', needed]);
  return segments;
}

/** The outermost marked values within a node. */
function marksIn(root) {
  const found = [];
  const look = (node, parent, key) => {
    if (node === null || typeof node !== 'object') return;
    if (Array.isArray(node)) {
      for (const one of node) look(one, parent, key);
      return;
    }
    if (typeof node.type !== 'string') return;
    if (node.type === 'CallExpression' && node.callee.name === MARK) {
      const isProperty = parent?.type === 'Property' && key === 'value';
      found.push({
        call: node,
        whole: isProperty ? parent : node,
        inList: isProperty || parent?.type === 'ArrayExpression',
      });
      return;
    }
    for (const name in node) if (name !== 'parent') look(node[name], node, name);
  };
  look(root, undefined, undefined);
  return found.sort((a, b) => a.whole.start - b.whole.start);
}

function patternNames(node) {
  if (node === null || node === undefined) return [];
  switch (node.type) {
    case 'Identifier':
      return [node.name];
    case 'ObjectPattern':
      return node.properties.flatMap((one) => patternNames(one.value ?? one.argument));
    case 'ArrayPattern':
      return node.elements.flatMap(patternNames);
    case 'AssignmentPattern':
      return patternNames(node.left);
    case 'RestElement':
      return patternNames(node.argument);
    default:
      throw new Error(`The program declares names by ${node.type}, which is not known here.`);
  }
}

const isFunction = ({ type }) =>
  type === 'FunctionDeclaration' ||
  type === 'FunctionExpression' ||
  type === 'ArrowFunctionExpression';

/** Names of `var` within a function, wherever they stand in it. */
function varNames(node, names) {
  if (node === null || typeof node !== 'object') return;
  if (Array.isArray(node)) {
    for (const one of node) varNames(one, names);
    return;
  }
  if (typeof node.type !== 'string' || isFunction(node) || node.type === 'PropertyDefinition')
    return;
  if (node.type === 'StaticBlock') return;
  if (node.type === 'VariableDeclaration' && node.kind === 'var') {
    for (const one of node.declarations) for (const name of patternNames(one.id)) names.add(name);
  }
  for (const key in node) if (key !== 'parent') varNames(node[key], names);
}

/** Names that stand in a block from its beginning to its end. */
function blockNames(statements) {
  const names = new Set();
  for (const one of statements) {
    if (one?.type === 'VariableDeclaration' && one.kind !== 'var') {
      for (const { id } of one.declarations) for (const name of patternNames(id)) names.add(name);
    } else if (one?.type === 'FunctionDeclaration' || one?.type === 'ClassDeclaration') {
      names.add(one.id.name);
    }
  }
  return names;
}

/** Which units a node needs, but for what marked values in it need. */
function refsOf(root, by, holes) {
  const found = new Set();
  const has = (scopes, name) => scopes.some((one) => one.has(name));
  const many = (nodes, scopes) => {
    for (const one of nodes) if (one) walk(one, scopes);
  };
  /** @param {any} node @param {readonly Set<string>[]} scopes */
  const walk = (node, scopes) => {
    if (holes.has(node)) return;
    if (isFunction(node)) {
      const names = new Set(node.params.flatMap(patternNames));
      names.add('arguments');
      if (node.type !== 'ArrowFunctionExpression' && node.id) names.add(node.id.name);
      varNames(node.body, names);
      const inner = [...scopes, names];
      many(node.params, inner);
      walk(node.body, inner);
      return;
    }
    switch (node.type) {
      case 'Identifier':
        if (!has(scopes, node.name)) {
          const unit = by.get(node.name);
          if (unit !== undefined) found.add(unit);
        }
        return;
      case 'ClassDeclaration':
      case 'ClassExpression': {
        const inner = node.id ? [...scopes, new Set([node.id.name])] : scopes;
        if (node.superClass) walk(node.superClass, inner);
        many(node.body.body, inner);
        return;
      }
      case 'PropertyDefinition':
      case 'MethodDefinition':
      case 'Property':
        if (node.computed) walk(node.key, scopes);
        if (node.value) walk(node.value, scopes);
        return;
      case 'MemberExpression':
        walk(node.object, scopes);
        if (node.computed) walk(node.property, scopes);
        return;
      case 'LabeledStatement':
        walk(node.body, scopes);
        return;
      case 'BreakStatement':
      case 'ContinueStatement':
      case 'MetaProperty':
        return;
      case 'BlockStatement':
        many(node.body, [...scopes, blockNames(node.body)]);
        return;
      case 'StaticBlock': {
        const names = blockNames(node.body);
        varNames(node.body, names);
        many(node.body, [...scopes, names]);
        return;
      }
      case 'SwitchStatement': {
        walk(node.discriminant, scopes);
        const inner = [...scopes, blockNames(node.cases.flatMap((one) => one.consequent))];
        for (const one of node.cases) many([one.test, ...one.consequent], inner);
        return;
      }
      case 'ForStatement':
      case 'ForInStatement':
      case 'ForOfStatement': {
        const inner = [...scopes, blockNames([node.init, node.left])];
        many([node.init, node.left, node.test, node.update, node.right, node.body], inner);
        return;
      }
      case 'CatchClause':
        many([node.param, node.body], [...scopes, new Set(patternNames(node.param))]);
        return;
      default:
        for (const key in node) {
          if (key === 'parent') continue;
          const inside = node[key];
          if (Array.isArray(inside))
            many(
              inside.filter((one) => typeof one?.type === 'string'),
              scopes,
            );
          else if (typeof inside?.type === 'string') walk(inside, scopes);
        }
    }
  };
  walk(root, []);
  return [...found].sort((a, b) => a - b);
}
