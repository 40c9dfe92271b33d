/**
 * Instances of one-dimensional cutting stock with proven optima; a bin is one stock length, no kerf.
 * Source: mdelorme2/BPPLIB, commit 21941c8a7e21a76a7b53e5dcb5602bf6cf00af55 (Falkenauer, Scholl,
 * Waescher, Schwerin, Hard28), and rafaelmartinelli/BPPLib.jl, commit
 * 2b30a3982059c99772789e59b65f470f2336d15b (PM), with its published bounds: Delorme, Iori, Martello,
 * BPPLIB, Optimization Letters 12(2), 235-250, 2018. The three PM have no published bound: their
 * optima, like all but Waescher's, were proved with another integer program (arc flow).
 */
export interface Instance {
  readonly name: string;
  readonly capacity: number;
  readonly optimum: number;
  /** Bins that first-fit decreasing takes. */
  readonly firstFitDecreasing: number;
  readonly source: 'read' | 'value from memory' | 'made up here';
  /** Sizes, each with how often it is wanted where that is more than once. */
  readonly sizes: string;
}

/** Size and count of every line of an instance. */
export function demandOf({ sizes }: Instance): { size: number; count: number }[] {
  return sizes
    .trim()
    .split(/\s+/)
    .map((entry) => {
      const [size, count = '1'] = entry.split('x');
      return { size: Number(size), count: Number(count) };
    });
}

export const INSTANCES: readonly Instance[] = [
  {
    name: 'PM_u010_01',
    capacity: 150,
    optimum: 5,
    firstFitDecreasing: 5,
    source: 'read',
    sizes: `
      96 78 76 74 67 59 58 52 44 24`,
  },
  {
    name: 'PM_u020_01',
    capacity: 150,
    optimum: 7,
    firstFitDecreasing: 7,
    source: 'read',
    sizes: `
      85 83 82 76 72 67 60 56 52 50 45 43 41 39x2 26 25 23x2 21`,
  },
  {
    name: 'PM_u030_01',
    capacity: 150,
    optimum: 12,
    firstFitDecreasing: 12,
    source: 'read',
    sizes: `
      98 97 96 95 92 90 81 70 67x2 65 64 57x2 55 54 49x2 48 46x2 45 41 40 32 31 29 28 26 20`,
  },
  {
    name: 'Falkenauer_t60_00',
    capacity: 1000,
    optimum: 20,
    firstFitDecreasing: 23,
    source: 'read',
    sizes: `
      495 474 473 472 466 450 445 444 439 430 419 414 410 395 372 370 366x3 363 361 357 355 351
      350x2 347 320 315 307 303 299 298x2 292 288 287 283 275x2 274 273x2 272x2 271 269x2 268 263
      262 261 259 258 255 254 252x3 251`,
  },
  {
    name: 'Falkenauer_t60_01',
    capacity: 1000,
    optimum: 20,
    firstFitDecreasing: 23,
    source: 'read',
    sizes: `
      475 473 468 465 462 447 444 426 423 412 411 409 403 402 399 396x2 382 376 369 366 361 347
      340 339 334 333 319 314 313 308 307 305 304 302 300 297 289 282 280 277 275 270 269 267 265
      264 262 261 260x2 258x2 257 256 255 254 252 251x2`,
  },
  {
    name: 'Falkenauer_u120_00',
    capacity: 150,
    optimum: 48,
    firstFitDecreasing: 49,
    source: 'read',
    sizes: `
      98x3 96x2 94 93x2 92 91x2 90 87 86 85x2 84x5 83x2 82x2 81 80x3 79x2 78x4 76 74x2 73x4 72 71
      70x3 69x3 67 66 64 62x2 60x2 59 58x3 57x4 55x3 50 49x3 47 46x2 45x2 44x2 43x4 42x5 41x3 39x2
      38x3 37 36x3 35 33x3 32x2 30x3 29 28 27x2 26 25x2 24 23x2 20`,
  },
  {
    name: 'Falkenauer_u120_01',
    capacity: 150,
    optimum: 49,
    firstFitDecreasing: 49,
    source: 'read',
    sizes: `
      100x2 99x2 98x5 97x3 95x3 94 92 90x2 88x2 85 82 81x3 80x3 79x2 78x2 76 75x2 74 72x2 71 70x3
      68 67x4 66x2 65x2 64 62 61x2 60x3 59 58 57x3 55x2 53x6 52x2 50 49x2 48x2 47x3 46x2 45x3 44
      43x3 41 39x3 38x2 37 36x3 35 33 32 30x2 29x2 27x3 25 24 23x2 22x3 20x2`,
  },
  {
    name: 'Falkenauer_u120_02',
    capacity: 150,
    optimum: 46,
    firstFitDecreasing: 47,
    source: 'read',
    sizes: `
      100x2 98 97x2 96 94 92x2 91x2 90x3 88 85 84x3 83 81x2 80x4 79x3 76x2 75x2 74 73 70 69x2 68x2
      67x4 66x3 65 64x5 62x2 61x2 60 59x2 57 53x2 51x2 50x2 48x3 47 46x3 45x2 44 42x2 41x2 40 38x3
      37x4 36x2 35x2 34x2 33 32x3 31x2 30 29x4 28x2 27 26x2 25 24x2 23x2 22 21x2 20`,
  },
  {
    name: 'N1C1W1_A',
    capacity: 100,
    optimum: 25,
    firstFitDecreasing: 25,
    source: 'read',
    sizes: `
      99x2 96x2 92x2 91 88 87 86 85 76 74 72 69 67x2 62 61 56 52 51 49 46 44 42 40x2 33x2 30x2 29
      28x2 27 25 24 23 22 21 20 17 14 13 11 10 7x2 3`,
  },
  {
    name: 'N1C1W2_B',
    capacity: 100,
    optimum: 30,
    firstFitDecreasing: 30,
    source: 'read',
    sizes: `
      99 96 95x2 91x3 90 89 86 85x2 84 79 76 69 68x2 65 64 63 58x2 54 53 52 50 49 48x2 45x2 43 42
      36 35 33 31x2 30x3 29 27x2 26 22x3 21`,
  },
  {
    name: 'N1C2W1_C',
    capacity: 120,
    optimum: 23,
    firstFitDecreasing: 23,
    source: 'read',
    sizes: `
      100 97 96 92 89 86 83x2 82 79 77 76 73x2 70 69x2 61 60x3 58 56x2 53 51 49 48x3 47 46 42 41
      36 35 34 32x3 31 22 17 12x2 6x2 5 3 2`,
  },
  {
    name: 'N1C3W2_D',
    capacity: 150,
    optimum: 20,
    firstFitDecreasing: 20,
    source: 'read',
    sizes: `
      100 99 98 96 94 92 90 89x3 87 86 81 80 78 77 74x2 72x2 63 62 60x2 55x2 54 53 50x2 46x2 45
      42x2 41 38 35 34 33x2 32 28x2 27 26 23 21x2 20`,
  },
  {
    name: 'N1W1B1R0',
    capacity: 1000,
    optimum: 18,
    firstFitDecreasing: 20,
    source: 'read',
    sizes: `
      395 394x2 391 390 389 388 384 383 382 380 379 376 371 368 365 360x2 354 350 346x2 344 342
      340 335x2 333 330x2 328 327 317 316 311 310x2 306 300x2 297 296 295 294x2 286 285 278 275x2`,
  },
  {
    name: 'Schwerin1_BPP1',
    capacity: 1000,
    optimum: 18,
    firstFitDecreasing: 19,
    source: 'read',
    sizes: `
      200x3 199 198x2 197x2 194x2 193 192 191x3 190x2 189 188x2 187x2 186 185x4 184x3 183x3 182x3
      181x2 180 179x4 178 177x4 175 174 173x2 172 171x3 170x2 169x3 167x2 165x2 164 163x4 162 161
      160x2 159 158x3 157 156x6 155x3 154x2 153 152x3 151x2 150x4`,
  },
  {
    name: 'Waescher_TEST0005',
    capacity: 10000,
    optimum: 28,
    firstFitDecreasing: 29,
    source: 'read',
    sizes: `
      4964x3 4950 4826 4816 4808 4682 4663x4 4631 4451 4387x2 4233 4127 3992x2 3968 3858 3698x2
      3672x4 3565 3387x3 3336x3 3309 3118x3 3078x4 2988 2870 2862x2 2847x2 2735x2 2716x3 2652
      2631x3 2553x2 2496x3 2406 2125x2 2017 1939x3 1848x4 1832 1672x2 1624 1593 1436x4 1225x2
      1212x3 1060x4 943x2 763 733x4 583 476 462x2 278x3 246 80x3 74x2 40x2`,
  },
  {
    name: 'Hard28_BPP13',
    capacity: 1000,
    optimum: 67,
    firstFitDecreasing: 68,
    source: 'read',
    sizes: `
      698 691 690 689 686 681 676 675 674 666 662 660 653 652 651x2 649 641 636 635 634 629 628x2
      626 624 621x3 620 616 611 610 603 602 600x2 596x2 590 587 585 578 577 572 569 566 561 559
      555 548 545 541 539 538 534x2 532 531 529 527 521 519 499 497 496 495x2 483 480 478 475 471
      461 460 459 458 444 435 432 426 423x2 420 414x2 411 392x2 391 390 386 385 381 378 376 365
      353 341 335 332 331 325 317 316 315 304 303 300 298 297 292x2 282 281 268 262 251 246 230
      227 216 214 201x2 197 194 190 189 188 183 181 179 176 173 169x2 168 167 160 159 156 151 144
      130 128 126 124 122 110 107 100 96x2 95 88 85x2 84 83 79x3 76 73 72 69 65 62 56 55 51 47
      36x2 32 30 29 28 1`,
  },
  {
    name: 'paper_roll_5600',
    capacity: 5600,
    optimum: 73,
    firstFitDecreasing: 82,
    source: 'value from memory',
    sizes: `
      2200x20 2150x18 2140x16 2100x14 2050x12 2000x10 1930x20 1880x18 1820x18 1710x14 1560x12
      1520x25 1380x22`,
  },
  {
    name: 'chvatal_raws_100 (Chvatal, Linear Programming, 1983, ch. 13)',
    capacity: 100,
    optimum: 453,
    firstFitDecreasing: 485,
    source: 'value from memory',
    sizes: `
      45x97 36x610 31x395 14x211`,
  },
  {
    name: 'boards_96in_kerf_demo',
    capacity: 96,
    optimum: 5,
    firstFitDecreasing: 5,
    source: 'made up here',
    sizes: `
      30x6 22x4 17x5 12x8`,
  },
];
