/** Rules are data: the checker walks them, the panel reads limits from them, files are written in their order. */
export interface NumberRule {
  readonly kind: 'number';
  /** Name for people, e.g. `stitches in 10 cm`. */
  readonly label: string;
  readonly min: number;
  readonly max: number;
  readonly unit: string;
  /** 0: any number; 1: whole; 2: even; 4: a multiple of four. */
  readonly multipleOf: 0 | 1 | 2 | 4;
}

export interface ChoiceRule {
  readonly kind: 'choice';
  readonly label: string;
  readonly choices: readonly (string | number)[];
}

export interface TextRule { readonly kind: 'text'; readonly label: string }
export interface FlagRule { readonly kind: 'flag'; readonly label: string }
export interface ColourRule { readonly kind: 'colour'; readonly label: string }

export interface ListRule {
  readonly kind: 'list';
  readonly label: string;
  readonly longest: number;
  readonly of: GroupRule;
}

export interface GroupRule {
  readonly kind: 'group';
  readonly label: string;
  readonly fields: Readonly<Record<string, Rule>>;
  /** Fields that must be there. */
  readonly needs: readonly string[];
}

export type Rule = NumberRule | ChoiceRule | TextRule | FlagRule | ColourRule | ListRule | GroupRule;

const MULTIPLES = { 0: 'a number', 1: 'a whole number', 2: 'an even number', 4: 'a multiple of 4' } as const;

/** What a rule takes, in words that finish `must be ...`. */
export function describeAllowed(rule: Rule): string {
  switch (rule.kind) {
    case 'number':
      return `${MULTIPLES[rule.multipleOf]} from ${rule.min} to ${rule.max}${rule.unit === '' ? '' : ` ${rule.unit}`}`;
    case 'choice':
      return rule.choices.map((choice) => JSON.stringify(choice)).join(' or ');
    case 'text':
      return 'a text';
    case 'flag':
      return 'true or false';
    case 'colour':
      return 'a colour as #rrggbb or #rgb';
    case 'list':
      return `a list of at most ${rule.longest}`;
    case 'group':
      return `an object with ${Object.keys(rule.fields).join(', ')}`;
    default:
      return rule satisfies never;
  }
}
