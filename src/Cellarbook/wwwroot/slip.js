// Racking: of drawn, received and lees, any two tell the third. It is only said here, below the field left empty; the program works it out itself.
const amount = text => {
  const found = /^([0-9]{1,9})(?:[.,]([0-9]{1,6}))?$/.exec(text.trim());
  return found && BigInt(found[1]) * 1000000n + BigInt((found[2] ?? "").padEnd(6, "0"));
};
const words = (millionths, mark) => {
  const rest = (millionths % 1000000n).toString().padStart(6, "0").replace(/0+$/, "");
  return (millionths / 1000000n).toString() + (rest ? mark + rest : "");
};
for (const form of document.querySelectorAll("form[data-third]")) {
  const fields = form.dataset.third.split(" ").map(name => form.elements.namedItem(name));
  if (fields.some(field => !field)) continue;
  const said = document.createElement("p");
  said.className = "hint follows";
  said.setAttribute("role", "status");
  const follow = () => {
    said.textContent = "";
    const figures = fields.map(field => field.value.trim() === "" ? undefined : amount(field.value));
    const units = fields.map(field => form.elements.namedItem(field.name + ":unit")?.value);
    const left = figures.indexOf(undefined);
    if (left < 0 || figures.filter(figure => figure === undefined).length > 1 || figures.includes(null)) return;
    const others = units.filter((_, i) => i !== left);
    if (others[0] !== others[1]) return;
    const [drawn, received, lees] = figures;
    const third = left === 0 ? received + lees : left === 1 ? drawn - lees : drawn - received;
    fields[left].closest(".field").append(said);
    said.textContent = third < 0n ? form.dataset.less : form.dataset.follows.replace("{0}", `${words(third, form.dataset.mark)} ${others[0]}`);
  };
  form.addEventListener("input", follow);
  follow();
}
