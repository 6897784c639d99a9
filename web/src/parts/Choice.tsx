// A few options side by side, of which one is chosen.

interface ChoiceProps<T extends string> {
  label: string;
  value: T;
  options: readonly (readonly [T, string])[];
  choose: (value: T) => void;
}

export function Choice<T extends string>({ label, value, options, choose }: ChoiceProps<T>) {
  return (
    <div class="choice" role="group" aria-label={label}>
      <span class="choice-label" aria-hidden="true">
        {label}
      </span>
      {options.map(([key, text]) => (
        <button type="button" key={key} aria-pressed={key === value} onClick={() => choose(key)}>
          {text}
        </button>
      ))}
    </div>
  );
}
