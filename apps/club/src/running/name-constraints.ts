import { BlockList, isIPv4 } from 'node:net';
import type { Hosts } from './certificates.ts';

/**
 * What an authority of a club may vouch for (RFC 5280, 4.2.1.10): this machine by its names, and addresses that are given
 * out within a network (RFC 1918, RFC 4193, RFC 3927, RFC 4291), since those change. Whoever comes by its key cannot pass
 * for any place on the internet.
 */
const NETWORKS = [
  ['127.0.0.0', 8],
  ['10.0.0.0', 8],
  ['172.16.0.0', 12],
  ['192.168.0.0', 16],
  ['169.254.0.0', 16],
  ['::1', 128],
  ['fc00::', 7],
  ['fe80::', 10],
] as const;

/** Names within a network (RFC 6762), whichever this machine has. */
const NAMES = ['localhost', 'local'] as const;

type Network = readonly [address: string, bits: number];

/** The extension's value for a machine: networks of its kind, and its own names and addresses where they are others. */
export function constraintsOf({ names, ips }: Hosts): Uint8Array<ArrayBuffer> {
  const networks: Network[] = [
    ...NETWORKS,
    ...ips.filter((ip) => !inNetwork(ip)).map((ip) => [ip, isIPv4(ip) ? 32 : 128] as const),
  ];
  const trees = [
    ...[...new Set([...NAMES, ...names])].map((name) => der(0x82, Buffer.from(name, 'ascii'))),
    ...networks.map(([address, bits]) => der(0x87, range(address, bits))),
  ].map((base) => der(0x30, base));
  return Uint8Array.from(der(0x30, der(0xa0, Buffer.concat(trees))));
}

/** Those of a machine's hosts that an authority may vouch for, by the value of its extension. */
export function vouchedFor({ names, ips }: Hosts, constraints: Uint8Array): Hosts {
  const all = Buffer.from(constraints);
  const has = (tree: Buffer): boolean => all.includes(der(0x30, tree));
  return {
    names: names.filter(
      (name) =>
        NAMES.some((one) => name === one || name.endsWith(`.${one}`)) ||
        has(der(0x82, Buffer.from(name, 'ascii'))),
    ),
    ips: ips.filter((ip) => inNetwork(ip) || has(der(0x87, range(ip, isIPv4(ip) ? 32 : 128)))),
  };
}

/** Whether an address is one that is given out within a network. */
function inNetwork(ip: string): boolean {
  const list = new BlockList();
  for (const [address, bits] of NETWORKS) list.addSubnet(address, bits, family(address));
  return list.check(ip, family(ip));
}

const family = (ip: string): 'ipv4' | 'ipv6' => (isIPv4(ip) ? 'ipv4' : 'ipv6');

/** Tag, length and value (X.690, 8.1). */
function der(tag: number, value: Buffer): Buffer {
  const { length } = value;
  const head =
    length < 0x80
      ? [tag, length]
      : length < 0x100
        ? [tag, 0x81, length]
        : [tag, 0x82, length >> 8, length & 0xff];
  return Buffer.concat([Buffer.from(head), value]);
}

/** An address with its mask. */
function range(address: string, bits: number): Buffer {
  const bytes = bytesOf(address);
  const mask = bytes.map((_, i) => 0xff & ~(0xff >> Math.max(0, Math.min(8, bits - 8 * i))));
  return Buffer.from([...bytes, ...mask]);
}

/** The bytes of an address (RFC 4291, 2.2, without a part in dots). */
export function bytesOf(ip: string): number[] {
  if (isIPv4(ip)) return ip.split('.').map(Number);
  const parts = (text: string): number[] =>
    text === '' ? [] : text.split(':').map((one) => Number.parseInt(one, 16));
  const [before = '', after] = ip.split('::');
  const [front, back] = [parts(before), parts(after ?? '')];
  const gap = after === undefined ? 0 : 8 - front.length - back.length;
  return [...front, ...new Array<number>(gap).fill(0), ...back].flatMap((one) => [
    one >> 8,
    one & 0xff,
  ]);
}
