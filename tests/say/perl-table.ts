/** The alphabet as Perl's `Encode::GSM0338` has it: an implementation of 3GPP TS 23.038 by other hands. */
import { spawnSync } from 'node:child_process';

export interface PerlTable {
  /** Of the module. */
  readonly version: string;
  /** The septets of each code point of the Basic Multilingual Plane that the module can write. */
  readonly septets: ReadonlyMap<number, readonly number[]>;
}

/** One line with the version, then a line for each code point that can be written: "20ac 1b65". */
const PROGRAM = `
use strict; use warnings; no warnings qw(utf8 surrogate nonchar);
use Encode (); use Encode::GSM0338 ();
print "$Encode::GSM0338::VERSION\\n";
for my $code (0 .. 0xffff) {
  my $char = chr $code;
  my $octets = eval { Encode::encode('gsm0338', $char, Encode::FB_CROAK) };
  printf "%04x %s\\n", $code, unpack 'H*', $octets if defined $octets;
}`;

/** Asks Perl once; null when there is no Perl, and throws when it is there and fails. */
export function readPerlTable(): PerlTable | null {
  const run = spawnSync('perl', ['-e', PROGRAM], { encoding: 'utf8', maxBuffer: 1 << 24 });
  if (run.error !== undefined && 'code' in run.error && run.error.code === 'ENOENT') return null;
  if (run.status !== 0) throw new Error(`perl failed: ${run.stderr}`, { cause: run.error });
  const [version = '', ...rows] = run.stdout.trim().split('\n');
  return { version, septets: new Map(rows.map(readRow)) };
}

function readRow(row: string): readonly [number, readonly number[]] {
  const [code = '', octets = ''] = row.split(' ');
  return [Number.parseInt(code, 16), Array.from(Buffer.from(octets, 'hex'))];
}
