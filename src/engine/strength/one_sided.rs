//! When a web-to-flange weld may be laid on one side of the web only, as data.

use super::Origin;
use crate::tolerance::Trust;
use crate::units::{Message, Part};
use serde::{Deserialize, Serialize};

/// Kind of load on the member.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize, schemars::JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum Service {
    /// Static, or dynamic only indirectly; indoors or protected.
    #[default]
    Static,
    /// Repeated loads as of cranes: fatigue counts.
    Fluctuating,
    /// Outdoors in strongly corrosive air.
    Corrosive,
    /// Seismic action governs the design.
    Seismic,
}

/// A condition on one-sided welds.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct OneSided {
    /// Where it comes from.
    pub(crate) origin: Origin,
    /// In words.
    pub(crate) words: &'static str,
    /// Thickest web, mm.
    thickest_web_mm: f64,
    /// Services it allows.
    services: &'static [Service],
}

/// Every condition; all must hold. No American or European clause seen gives a number: AISC 360-22 commentary J2.2b
/// (read) and EN 1993-1-8 4.12 (memory) warn of joints that can rotate about the root, no more. So the one code found
/// with limits is taken as the guide for all (choice).
pub(crate) const ONE_SIDED: &[OneSided] = &[OneSided {
    origin: Origin::of("GB 51022", "2015", "10.1.2", Trust::Read),
    words: "web to 8 mm, static load, no strongly corrosive air, not where seismic governs; not at base plates, brackets, \
            end plates, crane supports",
    thickest_web_mm: 8.0,
    services: &[Service::Static],
}];

/// The condition that forbids a one-sided weld on such a web in such service, with what it finds wrong.
pub(crate) fn one_sided_blocks(web_mm: f64, service: Service) -> Option<(&'static OneSided, Message)> {
    ONE_SIDED.iter().find_map(|rule| {
        if !rule.services.contains(&service) {
            let word = match service {
                Service::Static => "static load",
                Service::Fluctuating => "fluctuating load",
                Service::Corrosive => "strongly corrosive air",
                Service::Seismic => "seismic action",
            };
            return Some((rule, word.into()));
        }
        /// A third of an inch bought as 5/16 in is 7.94 mm; a little air keeps rounding out of the rule.
        const AIR_MM: f64 = 0.05;
        (web_mm > rule.thickest_web_mm + AIR_MM).then(|| {
            (rule, Message::of("a web of {}, over {}", [web_mm, rule.thickest_web_mm].map(Part::Plate)))
        })
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn thin_webs_under_static_load_may_be_welded_on_one_side() {
        assert!(one_sided_blocks(8.0, Service::Static).is_none());
        assert!(one_sided_blocks(10.0, Service::Static).is_some());
        assert!(one_sided_blocks(5.0, Service::Fluctuating).is_some());
    }

    #[test]
    fn a_web_too_thick_is_said_in_the_units_asked_for() {
        use crate::units::System;
        let (_, why) = one_sided_blocks(12.7, Service::Static).unwrap();
        assert_eq!(why.in_units(System::Si), "a web of 12.7 mm, over 8 mm");
        assert_eq!(why.in_units(System::Us), "a web of 1/2 in, over 5/16 in");
    }
}
