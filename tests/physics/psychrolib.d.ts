/** The part of psychrolib that the tests use; the package ships no types. Pa and C in SI. */
declare module 'psychrolib' {
  interface Psychrolib {
    readonly SI: number;
    SetUnitSystem(system: number): void;
    GetStandardAtmPressure(elevationM: number): number;
    GetSatVapPres(temperatureC: number): number;
  }
  const psychrolib: Psychrolib;
  export default psychrolib;
}
