/** A small invented scheme for tests of the shell: two growers on one phone, one grower on two, an agent. */

const WATER = 'water: { from: "2027-02-20", to: null }, target: { from: "2027-03-25", to: "2027-04-05" }';

export const VALLEY = `
id: test-valley
name: Test Valley
code: VALLEY
timeZone: Africa/Nairobi
country: GB
languages: [en]
officer: { name: Ada, phone: "+447700900990" }
quietHours: { from: "20:00", to: "07:00" }
remindAt: "17:00"
blocks:
  - { id: upper, name: Upper, ${WATER} }
people:
  - { id: ann, name: Ann, lang: en, phones: ["+447700900001"] }
  - { id: ben, name: Ben, lang: en, phones: ["+447700900002", "+447700900012"] }
  - { id: cyn, name: Cyn, lang: en, phones: ["+447700900003"] }
  - { id: dan, name: Dan, lang: en, phones: ["+447700900003"] }
  - { id: eve, name: Eve, lang: en, role: agent, phones: ["+447700900990"] }
plots:
  - { id: p1, number: "1", label: A-1, owner: ann, block: upper, areaHa: 0.4, varietyDays: 120, way: { tillage: hoe } }
  - { id: p2, number: "2", label: A-2, owner: ann, block: upper, areaHa: 0.25, varietyDays: 120, way: { tillage: hoe } }
  - { id: p3, number: "1", label: A-3, owner: ben, block: upper, areaHa: 1, varietyDays: 110, way: { tillage: hoe } }
  - { id: p4, number: "1", label: A-4, owner: cyn, block: upper, areaHa: 0.5, varietyDays: 120, way: { tillage: hoe } }
  - { id: p5, number: "2", label: A-5, owner: dan, block: upper, areaHa: 0.5, varietyDays: 120, way: { tillage: hoe } }
`;

export const ANN = '+447700900001';
export const BEN = '+447700900002';
export const BEN_AT_HOME = '+447700900012';
export const CYN_AND_DAN = '+447700900003';
export const STRANGER = '+447700900777';
/** A number of the line itself. */
export const LINE = '+447700900999';

/** The season that a plot of the file is opened with. */
export const seasonOf = (plotId: string) => `test-valley/${plotId}/1`;
