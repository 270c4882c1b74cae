import { consequence, type Finding } from "./finding.js";

/** What a tide's fit says about the readings themselves, what to do about it, and whom it concerns. */
const kinds: readonly { readonly says: RegExp; readonly remedy: string; readonly how: string }[] = [
  { says: /straight lines/, remedy: "log as often as the file pretends, or leave the drawn readings out of it", how: "only the readings that are none of the drawn ones are fitted" },
  { says: /come every/, remedy: "log every hour or oftener", how: "the line S3 may be off by a few hundredths of a hPa" },
  { says: /hardly covered/, remedy: "find out why the logger pauses at those hours", how: "the tide rests on the hours that are there" },
];

/**
 * A jump of 3 hPa or more that the tide's fit found and no detector of single readings, because its readings are far apart. Smaller ones
 * come from weather now and then, which costs a fit nothing but would be a false complaint here.
 */
const jump = {
  says: /level jumps by -?([3-9]|\d\d+)\.\d/,
  remedy: 'if the barometer was moved or changed then, add an event with "kind": "station moved" and the date to the description; if not, watch whether it jumps again',
  how: "the jump is fitted with the tide",
};

/**
 * How the pressure was sampled, as far as the tide cares: readings drawn between true ones, rare readings, hours of the day without any;
 * and jumps of its level that only a fit over weeks can see.
 *
 * @param tideWarnings of the fit that judged the clock
 * @param isJumpKnown  whether the detectors told a level shift of that barometer already
 */
export function samplingFindings(tideWarnings: readonly string[], isJumpKnown: boolean): Finding[] {
  return tideWarnings.flatMap((text) => {
    const kind = [...kinds, ...(isJumpKnown ? [] : [jump])].find(({ says }) => says.test(text));
    if (kind === undefined) return [];
    return [{ weight: 1, says: `the pressure: ${text.charAt(0).toLowerCase()}${text.slice(1).replace(/\.$/, "")}`, remedy: kind.remedy, consequences: consequence(["tides"], "note", kind.how) }];
  });
}
