/** A small publication without faults, for tests to put faults into. */
import type { ContentFiles } from '../../pipeline/content/files.ts';

export const HOUSE = `name: The Level Mile
site: https://level-mile.example
language: en-GB
headline_start_rule: first-movement
licence:
  name: CC BY 4.0
  url: https://creativecommons.org/licenses/by/4.0/
limits:
  wind_mps: 3
  slope_pct: 0.5
launch_methods:
  - id: brake-hold
    name: Held on the brake
    how: Hold, press, let go.
  - id: from-rest
    name: From rest
    how: Press.
`;

export const CAR = `name: Ambler Wren 40
short_name: Wren 40
kind: small hatchback
drive: petrol
driven_wheels: front
gearbox: five-speed manual
power_kw: 62
kerb_mass_kg: 1040
`;

export const ROAD = `name: Tarn Field
about: A disused taxiway behind a locked gate.
permission: The owner, in writing.
surface: asphalt
length_m: 1500
directions:
  - { id: east, name: Eastbound, heading_deg: 68 }
  - { id: west, name: Westbound, heading_deg: 248 }
slope_pct: 0.2
`;

export const TEST = `title: "Ambler Wren: plain and quick enough"
standfirst: One day, one car.
car: wren
road: tarn
date: "2026-05-12"
time_zone: "+01:00"
as_tested:
  mass_kg: 1210
  aboard: driver
  fuel: half a tank
  tyres: summer
receiver:
  what: 25 Hz satellite receiver
conditions:
  - { at: "09:30", temperature_c: 18, pressure_hpa: 1000, humidity_pct: 50, wind_mps: 2, wind_from_deg: 68, surface: dry }
  - { at: "10:30", temperature_c: 20, pressure_hpa: 999, humidity_pct: 45, wind_mps: 4, wind_from_deg: 158, surface: damp }
logs:
  - file: logs/morning.csv
attempts:
  - { at: "10:00:05", launch: brake-hold, direction: east }
  - { at: "10:10", launch: from-rest, direction: west, note: Clean }
  - { at: "10:41:00", launch: from-rest, direction: east, set_aside: A hare }
`;

const encode = (text: string): Uint8Array => new TextEncoder().encode(text);

/** The files by path; `changes` replaces or adds texts and bytes, undefined takes a file out. */
export function contentFiles(
  changes: Readonly<Record<string, string | Uint8Array | undefined>> = {},
): ContentFiles {
  const texts: Record<string, string | Uint8Array | undefined> = {
    'content/house.yaml': HOUSE,
    'content/methodology.md': '# How we measure\n',
    'content/cars/wren.yaml': CAR,
    'content/roads/tarn.yaml': ROAD,
    'content/tests/wren-dry/test.yaml': TEST,
    'content/tests/wren-dry/article.md': 'It goes.\n',
    'content/tests/wren-dry/logs/morning.csv': 'time_s,speed_kmh\n0,0\n',
    ...changes,
  };
  return new Map(
    Object.entries(texts)
      .filter(([, text]) => text !== undefined)
      .map(([path, text]) => [path, typeof text === 'string' ? encode(text) : text!]),
  );
}
