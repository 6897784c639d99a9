// Sizes that belong together, side by side: the elements of one list of the job file.

import { Field } from "../parts/Field";

export function Sizes({ path, si, label, names }: { path: string; si: string; label: string; names: readonly string[] }) {
  return (
    <div class="sizes" role="group" aria-label={label}>
      <span class="sizes-label">{label}</span>
      {names.map((name, index) => (
        <Field key={name} path={`${path}[${index + 1}]`} si={`${si}[${index + 1}]`} label={name} kind="length" />
      ))}
    </div>
  );
}
