/** A scheme for the bench: one block, many growers with two plots each. */
/** Growers in the scheme, each with a phone of their own. */
export const BENCH_PHONES = 400;

/** The scheme file's text. Phones are from the range kept for fiction. */
export function benchScheme(): string {
  const growers = Array.from({ length: BENCH_PHONES }, (_, index) => index);
  const phone = (index: number) => `+447700900${String(index).padStart(3, '0')}`;
  const people = growers.map(
    (index) => `  - { id: g${index}, name: Grower, lang: en, phones: ["${phone(index)}"] }`,
  );
  const plots = growers.flatMap((index) =>
    [1, 2].map(
      (number) =>
        `  - { id: p${index}-${number}, number: "${number}", owner: g${index}, block: one, areaHa: 0.3, varietyDays: 120, way: { tillage: two-wheel } }`,
    ),
  );
  return `id: bench
name: Bench
code: BENCH
timeZone: Etc/UTC
country: GB
languages: [en]
officer: { name: Office, phone: "+447700900990" }
blocks:
  - { id: one, name: One, water: { from: "-30", to: "+90" }, target: { from: "+20", to: "+60" } }
people:
${people.join('\n')}
plots:
${plots.join('\n')}
`;
}
