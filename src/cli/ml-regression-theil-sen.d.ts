/** The part that the bench and the checks against this library use; it ships no types. */
declare module 'ml-regression-theil-sen' {
  export class TheilSenRegression {
    constructor(x: readonly number[], y: readonly number[])
    readonly slope: number
    readonly intercept: number
  }
}
