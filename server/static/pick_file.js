/** A list can be picked as a file: its text goes into the field, and can be read before it is sent. */

for (const place of document.querySelectorAll("[data-file-into]")) {
  const picker = Object.assign(document.createElement("input"), {type: "file", accept: ".csv,text/csv"});
  picker.setAttribute("aria-label", "Pick a CSV file");
  picker.addEventListener("change", async () => {
    document.getElementById(place.dataset.fileInto).value = (await picker.files[0]?.text()) ?? "";
  });
  place.append(picker);
}
