import { deflateSync } from 'node:zlib';
import sharp from 'sharp';

const square = () =>
  sharp({ create: { width: 60, height: 40, channels: 3, background: '#a86432' } });

/** A chunk of a PNG, without a right sum of its bytes. */
function chunk(type: string, data: Buffer): Buffer {
  const length = Buffer.alloc(4);
  length.writeUInt32BE(data.length);
  return Buffer.concat([length, Buffer.from(type, 'latin1'), data, Buffer.alloc(4)]);
}

/** A PNG that says it has so many pixels. */
function pngOf(width: number, height: number): Buffer {
  const head = Buffer.alloc(13);
  head.writeUInt32BE(width, 0);
  head.writeUInt32BE(height, 4);
  head.set([8, 2, 0, 0, 0], 8);
  return Buffer.concat([
    Buffer.from('89504e470d0a1a0a', 'hex'),
    chunk('IHDR', head),
    chunk('IDAT', deflateSync(Buffer.alloc(1_000))),
    chunk('IEND', Buffer.alloc(0)),
  ]);
}

/** A GIF that says it has so many pixels. */
function gifOf(width: number, height: number): Buffer {
  const head = Buffer.from('GIF89a\0\0\0\0\x80\0\0', 'latin1');
  head.writeUInt16LE(width, 6);
  head.writeUInt16LE(height, 8);
  return Buffer.concat([head, Buffer.alloc(6), Buffer.from(';')]);
}

/** Words that must not be in what the club makes of an image. */
export const TRACES = ['Exif', 'GPS', 'Porch of', 'http://ns.adobe.com', '<script', 'ICC_PROFILE'];

/** Images that somebody may send: those that are to be refused, and those of which a clean one is made. */
export async function hostileImages(): Promise<{
  readonly refused: Readonly<Record<string, Buffer>>;
  readonly taken: Readonly<Record<string, Buffer>>;
}> {
  const [png, jpeg, webp] = await Promise.all([
    square().png().toBuffer(),
    square().jpeg().toBuffer(),
    square().webp().toBuffer(),
  ]);
  const spoilt = Buffer.from(jpeg);
  spoilt.fill(0xff, Math.floor(spoilt.length / 2));
  const placed = await square()
    .withExif({
      IFD0: { ImageDescription: 'Porch of somebody', Software: '<script>alert(1)</script>' },
      IFD3: {
        GPSLatitudeRef: 'N',
        GPSLatitude: '51/1 30/1 3230/100',
        GPSLongitudeRef: 'W',
        GPSLongitude: '0/1 7/1 4366/100',
      },
    })
    .jpeg()
    .toBuffer();
  const text = (words: string): Buffer => Buffer.from(words);
  return {
    refused: {
      'a PNG cut short': png.subarray(0, png.length - 40),
      'a JPEG cut short': jpeg.subarray(0, Math.floor(jpeg.length / 2)),
      'a WebP cut short': webp.subarray(0, Math.floor(webp.length / 2)),
      'a JPEG whose second half is none': spoilt,
      'the first bytes of a JPEG': jpeg.subarray(0, 4),
      'a PNG of 10,000 million pixels': pngOf(100_000, 100_000),
      'a PNG of more pixels than are read': pngOf(8_000, 8_000),
      'a PNG of no pixels': pngOf(0, 0),
      'a PNG without its pixels': pngOf(400, 400),
      'a GIF': await square().gif().toBuffer(),
      'a GIF of 4,000 million pixels': gifOf(65_535, 65_535),
      'a TIFF': await square().tiff().toBuffer(),
      'a drawing': text(
        '<svg xmlns="http://www.w3.org/2000/svg" width="9" height="9"><script>alert(1)</script></svg>',
      ),
      'a drawing that asks for a file': text(
        '<?xml version="1.0"?><!DOCTYPE svg [<!ENTITY x SYSTEM "file:///etc/passwd">]><svg xmlns="http://www.w3.org/2000/svg"><text>&x;</text></svg>',
      ),
      'a page': text('<!doctype html><script>alert(1)</script>'),
      'a document': text('%PDF-1.7\n1 0 obj << >> endobj'),
      nothing: Buffer.alloc(1),
    },
    taken: {
      'a photograph with its place and words': placed,
      'a photograph with a page behind it': Buffer.concat([
        jpeg,
        text('<script>alert(1)</script>'),
      ]),
      'a PNG with a page behind it': Buffer.concat([png, text('<html><script>alert(1)</script>')]),
      'a WebP': webp,
      'one pixel': await square().resize(1, 1).png().toBuffer(),
    },
  };
}
