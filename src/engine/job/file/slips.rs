//! Slips that many make in a job file, each with the line that mends it.

use crate::input::{Hint, KnownSlip, as_toml};
use serde_json::Value;

/// What is known of an unknown key or name at a place; `beside` is the table it stands in.
pub(crate) fn known(place: &str, found: &str, beside: &Value) -> Option<KnownSlip> {
    let of_procedure = place.starts_with("procedure.");
    let heat = || beside.get(found).map_or_else(|| "\"1.1 kJ/mm\"".to_owned(), as_toml);
    let (wanted, hint) = match (place, found) {
        ("pass.seam", "both" | "all") => (
            "`outer` or `inner`; both seams are two passes, laid together in one `step`",
            Hint::Right(two_passes(beside, "seam", ["outer", "inner"])?),
        ),
        ("pass.side", "both" | "all") => (
            "`near` or `far`; both sides are two passes: in one `step` if they are laid at once, in two if the far side comes later",
            Hint::Example(two_passes(beside, "side", ["near", "far"])?),
        ),
        (_, "heat" | "heat_input" | "gross_heat_input" | "net_heat_input") if of_procedure => {
            let wanted = "current, voltage and travel speed here: the heat follows from them. A heat known otherwise stands on \
                          the pass, `gross_heat_input` as a welding procedure states it or `heat_input` net of the arc's losses";
            let key = if found == "net_heat_input" { "heat_input" } else { "gross_heat_input" };
            (wanted, Hint::Right(format!("in each [[pass]] laid with it: {key} = {}", heat())))
        }
        ("pass.heat" | "pass.net_heat_input", _) => {
            let wanted = "`gross_heat_input` as a welding procedure states it, or `heat_input` net of the arc's losses";
            let line = |key: &str| format!("{key} = {}", heat());
            let hint = if found == "heat" {
                Hint::Example(line("gross_heat_input"))
            } else {
                Hint::Right(line("heat_input"))
            };
            (wanted, hint)
        }
        ("attachment.kind", "splice" | "flange-splice" | "web-splice" | "butt" | "butt-weld") => {
            let wanted = "an attachment; a splice stands with the plate that ends there, on the member's `web`, `outer_flange` or \
                          `inner_flange`";
            let line = "splice = { preparation = \"single-v\", made = \"after-assembly\" }";
            (wanted, Hint::Example(line.to_owned()))
        }
        ("flange" | "member.flange" | "member.flanges" | "flanges", _) => {
            let wanted = "`outer_flange` (straight side) and `inner_flange` (tapered side) under [member], each a list of plates";
            let plates = beside.get(found).map(plates).unwrap_or_default();
            (wanted, Hint::Example(format!("outer_flange = {plates}\ninner_flange = {plates}")))
        }
        _ => return None,
    };
    Some(KnownSlip { wanted: wanted.to_owned(), hint })
}

/// The same pass twice, with one key of its two values.
fn two_passes(pass: &Value, key: &str, values: [&str; 2]) -> Option<String> {
    let fields = pass.as_object()?;
    let one = |value: &str| {
        let others = fields.iter().filter(|(name, _)| name.as_str() != key);
        let rest: String = others.map(|(name, value)| format!("\n{name} = {}", as_toml(value))).collect();
        format!("[[pass]]\n{key} = {value:?}{rest}")
    };
    Some(values.map(one).join("\n"))
}

/// A flange as written, as a list of plates where it is one.
fn plates(written: &Value) -> String {
    let whole = written.get("width").and(written.get("thickness")).is_some();
    if whole {
        format!("[{}]", as_toml(written))
    } else {
        "[{ width = \"180 mm\", thickness = \"8 mm\" }]".to_owned()
    }
}
