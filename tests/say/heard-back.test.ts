import { existsSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { ACTIVITIES } from '../../src/agronomy/season.ts';
import { heardFromAgent, isForAgents, languagesIn } from '../../src/commands/sheet.ts';
import { hear } from '../../src/hear/hear.ts';
import { readWords } from '../../src/hear/read-words.ts';
import { isoDay } from '../../src/plan/day.ts';
import { dayText, numberText } from '../../src/say/calendar.ts';
import { openCatalogue } from '../../src/say/catalogue.ts';
import { messageText } from '../../src/say/message-text.ts';
import { sampleTexts } from '../../src/say/sampler.ts';
import { SAMPLES } from '../../src/say/samples.ts';
import { toldPhrases } from '../../src/say/sheet.ts';

const LOCALES = fileURLToPath(new URL('../../locales/', import.meta.url));
const languages = languagesIn().filter((lang) => existsSync(`${LOCALES}${lang}/words.json`));

function open(lang: string) {
  const read = (file: string): unknown => JSON.parse(readFileSync(`${LOCALES}${lang}/${file}.json`, 'utf8'));
  const words = readWords(read('words'));
  if (!words.ok) throw new Error(words.mistakes.join('; '));
  return {
    catalogue: openCatalogue({ lang, messages: read('messages'), calendar: read('calendar') }),
    lexicon: words.lexicon,
  };
}

describe.runIf(languages.length > 0).each(languages)('what %s tells people to send, it hears', (lang) => {
  const { catalogue, lexicon } = open(lang);
  const wordOf = (activity: string) => messageText({ key: `word.${activity}` }, catalogue);

  test.each(ACTIVITIES)('the word for %s', (activity) => {
    const heard = hear(`${wordOf(activity)} 3`, lexicon, 20886);
    expect(heard).toMatchObject({
      readings: [{ kind: 'report', activity, stage: 'finished', plots: ['3'], on: '2027-03-09' }],
      unclear: null,
    });
  });

  const told = toldPhrases(catalogue, sampleTexts(catalogue, SAMPLES));
  test.each([...told])('the phrase %s, told in %s', (phrase, key) => {
    if (isForAgents(key)) {
      expect(heardFromAgent(phrase, lexicon).unclear).toBeNull();
      return;
    }
    const alone = hear(phrase, lexicon, 20886).unclear;
    const goneOn = hear(`${phrase} Ama`, lexicon, 20886).unclear;
    expect(alone === null || goneOn === null ? null : alone).toBeNull();
  });

  test('a day as it is said is that day', () => {
    fc.assert(
      fc.property(fc.integer({ min: 19000, max: 22000 }), fc.integer({ min: 0, max: 120 }), (today, ago) => {
        const said = `${wordOf('plough')} 3 ${dayText(today - ago, catalogue.calendar)}`;
        expect(hear(said, lexicon, today).readings).toMatchObject([
          { activity: 'plough', on: isoDay(today - ago) },
        ]);
      }),
      { numRuns: 200 },
    );
  });

  test('a depth as it is said is that depth', () => {
    fc.assert(
      fc.property(fc.integer({ min: 10, max: 400 }), (millimetres) => {
        const depthCm = millimetres / 10;
        const said = `${wordOf('plough')} 3, ${numberText(depthCm, catalogue.calendar)} cm`;
        expect(hear(said, lexicon, 20886).readings).toMatchObject([{ plots: ['3'], measures: { depthCm } }]);
      }),
      { numRuns: 200 },
    );
  });
});
