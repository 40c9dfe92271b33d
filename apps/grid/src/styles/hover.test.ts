import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';

/** What styles say of hovering, outside of what holds for a pointer that can: a finger would leave that look behind. */
function hoveringAnywhere(css: string): readonly string[] {
  const open: string[] = [];
  const found: string[] = [];
  for (const [, before = '', sign] of css
    .replaceAll(/\/\*.*?\*\//gs, '')
    .matchAll(/([^{}]*)([{}])/g)) {
    if (sign === '}') {
      open.pop();
      continue;
    }
    const says = before.split(';').at(-1)?.trim() ?? '';
    if (says.includes(':hover') && !open.includes('@media (hover: hover)')) found.push(says);
    open.push(says);
  }
  return found;
}

describe('what is pointed at', () => {
  it('looks so only where a pointer can hover', () => {
    const root = join(import.meta.dirname, '..');
    const files = readdirSync(root, { recursive: true, encoding: 'utf8' }).filter((name) =>
      name.endsWith('.css'),
    );
    expect(files.length).toBeGreaterThan(10);
    const found = files.flatMap((name) =>
      hoveringAnywhere(readFileSync(join(root, name), 'utf8')).map((says) => `${name}: ${says}`),
    );
    expect(found).toEqual([]);
  });

  it('is found where it would stay after a tap', () => {
    expect(hoveringAnywhere('@media (hover: hover) { .a:hover { color: red; } }')).toEqual([]);
    expect(hoveringAnywhere('.b { color: red; } .a:hover,\n.b { color: red; }')).toEqual([
      '.a:hover,\n.b',
    ]);
  });
});
