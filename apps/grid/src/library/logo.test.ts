import { describe, expect, it } from 'vitest';
import { fitted } from './logo.ts';

describe('the size of a logo', () => {
  it('goes into its field, keeps its shape and is never drawn larger', () => {
    expect(fitted({ width: 2000, height: 1000 }, [480, 240])).toEqual({ width: 480, height: 240 });
    expect(fitted({ width: 300, height: 1200 }, [480, 240])).toEqual({ width: 60, height: 240 });
    expect(fitted({ width: 64, height: 32 }, [480, 240])).toEqual({ width: 64, height: 32 });
    // A line still has a height.
    expect(fitted({ width: 5000, height: 2 }, [480, 240])).toEqual({ width: 480, height: 1 });
  });
});
