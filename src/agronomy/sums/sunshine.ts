/**
 * Sun and day length by latitude and day of the year (FAO-56, Allen et al. 1998, eqs 21-25 and 34). Latitudes in degrees,
 * south of the equator under 0; days of the year from 1 January = 1. Its numbers are the astronomy of those equations.
 */
import { dayFromParts } from '../../plan/day.ts';
import { monthAt } from '../working-days.ts';

const SOLAR_CONSTANT = 0.082;
const MINUTES_IN_DAY = 24 * 60;
const DAYS_IN_YEAR = 365;
/** Any year without a 29 February. */
const COMMON_YEAR = 2001;

/** Radiation over the air, Ra, in MJ per m2 and day (eq. 21). At 20 S on day 246 it is 32.2. */
export function radiationAboveAirMj(latitude: number, dayOfYear: number): number {
  const { declination, sunset, phi } = sunOf(latitude, dayOfYear);
  const nearness = 1 + 0.033 * Math.cos((2 * Math.PI * dayOfYear) / DAYS_IN_YEAR);
  const height =
    sunset * Math.sin(phi) * Math.sin(declination) + Math.cos(phi) * Math.cos(declination) * Math.sin(sunset);
  return Math.max(0, (MINUTES_IN_DAY / Math.PI) * SOLAR_CONSTANT * nearness * height);
}

/** Hours between sunrise and sunset, N (eq. 34): 0 to 24. */
export function daylightHours(latitude: number, dayOfYear: number): number {
  return (24 / Math.PI) * sunOf(latitude, dayOfYear).sunset;
}

/** The middle of a month (January 1, December 12) as a day of the year: its 15th, for which FAO-56 tabulates the sun. */
export function middleOfMonth(month: number): number {
  return dayOf(month, 15) - dayOf(1, 1) + 1;
}

/** Days in a month of a common year. */
export const daysInMonth = (month: number): number => monthAt(dayOf(month, 1)).days;

function dayOf(month: number, dayOfMonth: number): number {
  const day = dayFromParts(COMMON_YEAR, month, dayOfMonth);
  if (day === null) throw new RangeError(`There is no month ${month}.`);
  return day;
}

/** Declination (eq. 24), sunset hour angle (eq. 25) and latitude, in radians. Beyond the polar circles the sun may not rise or set. */
function sunOf(latitude: number, dayOfYear: number) {
  const phi = (Math.PI / 180) * latitude;
  const declination = 0.409 * Math.sin((2 * Math.PI * dayOfYear) / DAYS_IN_YEAR - 1.39);
  const cosine = -Math.tan(phi) * Math.tan(declination);
  return { phi, declination, sunset: Math.acos(Math.min(1, Math.max(-1, cosine))) };
}
