/// <reference path="./psychrolib.d.ts" />
import psychrolib from 'psychrolib';
import { numberOf } from './arguments.ts';
import type { ArgumentDescription, FunctionDescription } from './describe.ts';
import { Fault } from './fault.ts';
import { between } from './guards.ts';

const temperature = (name: string, means: string): ArgumentDescription =>
  numberOf('temperature', name, means);
const humidity = (name: string, means: string): ArgumentDescription =>
  numberOf('humidity', name, `${means}, percent`);

const TEMPERATURE = temperature('temperature', 'temperature of the air');
const HUMIDITY = humidity('humidity', 'relative humidity of the air, more than 0, to 100');
const OUTDOOR_TEMPERATURE = temperature('outdoor_temperature', 'temperature of the air outside');
const OUTDOOR_HUMIDITY = humidity('outdoor_humidity', 'relative humidity outside, 0 to 100');
const INDOOR_TEMPERATURE = temperature('indoor_temperature', 'temperature the air is brought to');

/** ASHRAE table 2 of moist air at standard pressure: -60 to 90 °C. */
const COLDEST = -76;
const HOTTEST = 194;

/** Below this the equations of vapour over ice are not given (-100 °C). */
const COLDEST_DEW = -148;

/** The library's unit system is one switch for the process: it is set before every use. */
function inchPound(): typeof psychrolib {
  psychrolib.SetUnitSystem(psychrolib.IP);
  return psychrolib;
}

/**
 * Temperature at which air begins to give up its water as dew.
 * @param temperature °F, -76 to 194
 * @param humidity % relative humidity, to 100; more than 0, as much as puts the dew point at -148 °F
 * @returns °F, the temperature itself at 100 %; frost point below freezing
 * @throws Fault `kind`, `range`
 * Source: ASHRAE Handbook, Fundamentals (2017), chapter 1, equations 5, 6 and 22, through psychrolib.
 * It holds at any pressure.
 */
export function dewPoint(temperature: number, humidity: number): number {
  const air = inchPound();
  const t = between(TEMPERATURE, temperature, COLDEST, HOTTEST);
  // Conversion noise is let through by the guard; the library takes exactly 1 at the most.
  const share = Math.min(between(HUMIDITY, humidity, 0, 100) / 100, 1);
  const least = air.GetSatVapPres(COLDEST_DEW) / air.GetSatVapPres(t);
  if (share >= least) return air.GetTDewPointFromRelHum(t, share);
  throw new Fault({
    class: 'range',
    argument: HUMIDITY.name,
    got: humidity,
    quantity: HUMIDITY.quantity,
    takes: '{n} to {n}',
    bounds: [100 * least, 100],
    hint: 'Air without water has no dew point.',
  });
}

/**
 * Relative humidity of outdoor air brought to an indoor temperature, no water added or taken away.
 * @param outdoorTemperature °F, -76 to 194
 * @param outdoorHumidity %, 0 to 100
 * @param indoorTemperature °F, -76 to 194
 * @returns %, 0 to 100. Cooled below its dew point, the air stays at 100 and the rest of its water
 * condenses: that is the physics, not a clamp, and the notes say so.
 * @throws Fault `kind`, `range`
 * Source: ASHRAE Handbook, Fundamentals (2017), chapter 1, equations 5, 6, 12 and 22, through
 * psychrolib. Standard atmosphere at sea level, the same inside and out: the pressure then cancels.
 */
export function indoorHumidity(
  outdoorTemperature: number,
  outdoorHumidity: number,
  indoorTemperature: number,
): number {
  const air = inchPound();
  const outside = between(OUTDOOR_TEMPERATURE, outdoorTemperature, COLDEST, HOTTEST);
  const share = Math.min(between(OUTDOOR_HUMIDITY, outdoorHumidity, 0, 100) / 100, 1);
  const inside = between(INDOOR_TEMPERATURE, indoorTemperature, COLDEST, HOTTEST);
  const vapour = air.GetVapPresFromRelHum(outside, share);
  return Math.min(100, (100 * vapour) / air.GetSatVapPres(inside));
}

/** Pa in one psi, the library's unit of pressure here. */
const PASCAL = 6894.757293168;

/** Relative humidity, %, of air at a temperature (°F) whose vapour has a pressure (Pa). */
export function humidityOf(temperature: number, pascal: number): number {
  return Math.min(100, (100 * pascal) / PASCAL / inchPound().GetSatVapPres(temperature));
}

const ASHRAE =
  'ASHRAE Handbook, Fundamentals (2017), chapter 1, equations for saturated and moist air, through psychrolib 1.1.1';

export const AIR_FUNCTIONS: readonly FunctionDescription[] = [
  {
    name: 'DEW_POINT',
    task: 'Moisture and movement',
    answers: 'At what temperature dew forms from this air.',
    args: [TEMPERATURE, HUMIDITY],
    result: { quantity: 'temperature', means: 'dew point; frost point below freezing' },
    source: ASHRAE,
    example: '=DEW_POINT(70, 50)',
    notes:
      'From -76 to 194 °F (-60 to 90 °C). A surface colder than the dew point gets wet: wait to finish, and keep cast iron covered.',
    run: dewPoint,
  },
  {
    name: 'INDOOR_HUMIDITY',
    task: 'Moisture and movement',
    answers: 'How humid outdoor air becomes once it is brought to room temperature.',
    args: [OUTDOOR_TEMPERATURE, OUTDOOR_HUMIDITY, INDOOR_TEMPERATURE],
    result: { quantity: 'humidity', means: 'relative humidity indoors, at most 100' },
    source: ASHRAE,
    example: '=INDOOR_HUMIDITY(20, 70, 70)',
    notes:
      'Capped at 100: air cooled below its dew point stays saturated, and the rest of its water condenses. Pressure of the standard atmosphere at sea level, inside and out. People, plants, cooking and humidifiers add water, so a lived-in room in winter is more humid than this.',
    run: indoorHumidity,
  },
];
