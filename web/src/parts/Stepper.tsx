// Steps back and forward by buttons and arrow keys.

interface StepperProps {
  at: number;
  count: number;
  label: string;
  before: string;
  next: string;
  go: (to: number) => void;
}

export function Stepper({ at, count, label, before, next, go }: StepperProps) {
  const to = (step: number) => go(Math.max(0, Math.min(count - 1, step)));
  return (
    <div
      class="stepper"
      onKeyDown={(event) => {
        if (event.key === "ArrowLeft") to(at - 1);
        if (event.key === "ArrowRight") to(at + 1);
      }}
    >
      <button type="button" aria-disabled={at === 0} onClick={() => to(at - 1)} aria-label={before}>
        ◀
      </button>
      <output aria-live="polite">{label}</output>
      <button type="button" aria-disabled={at >= count - 1} onClick={() => to(at + 1)} aria-label={next}>
        ▶
      </button>
    </div>
  );
}
