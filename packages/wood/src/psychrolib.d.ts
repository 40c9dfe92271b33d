/** The part of psychrolib 1.1.1 that is used here; the package ships no types of its own. */
declare module 'psychrolib' {
  interface Psychrometrics {
    readonly IP: number;
    SetUnitSystem(system: number): void;
    /** °F in, psi out, once the unit system is IP. */
    GetSatVapPres(dryBulb: number): number;
    /** °F and a share from 0 to 1 in, psi out. */
    GetVapPresFromRelHum(dryBulb: number, relativeHumidity: number): number;
    /** °F and a share from 0 to 1 in, °F out. */
    GetTDewPointFromRelHum(dryBulb: number, relativeHumidity: number): number;
  }
  const psychrolib: Psychrometrics;
  export default psychrolib;
}
