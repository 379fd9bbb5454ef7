//! What a tolerance limits, of the things that are predicted.

use serde::Serialize;

/// A distortion that a standard limits. Each is judged as a size in mm.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Quantity {
    /// Deviation of the in-plane bow from the wanted camber (from straight if none is wanted);
    /// + where there is more of the wanted camber.
    Camber,
    /// Lateral bow, from straight.
    Sweep,
    /// Offset of a flange toe from the square line by tilt alone.
    FlangeTilt,
    /// Rise of the flange toes over the middle of the flange by cup alone.
    FlangeCup,
    /// Offset of a flange toe from the square line by tilt and cup together.
    FlangeToe,
    /// Waves of the web to either side of its plane, with those it came with if the job says so.
    WebFlatness,
    /// Turn of the member against its start end, as the sideways offset over its depth, or over its flange if that is wider.
    Twist,
    /// Deviation of the finished length from the wanted one.
    Length,
}

impl Quantity {
    /// Every quantity, in the order of a tolerance table.
    pub const ALL: [Self; 8] = [
        Self::Camber,
        Self::Sweep,
        Self::FlangeTilt,
        Self::FlangeCup,
        Self::FlangeToe,
        Self::WebFlatness,
        Self::Twist,
        Self::Length,
    ];

    /// Its names, in one word and in words.
    const fn names(self) -> [&'static str; 2] {
        match self {
            Self::Camber => ["camber"; 2],
            Self::Sweep => ["sweep"; 2],
            Self::FlangeTilt => ["flange_tilt", "flange tilt"],
            Self::FlangeCup => ["flange_cup", "flange cup"],
            Self::FlangeToe => ["flange_toe", "flange toe"],
            Self::WebFlatness => ["web_flatness", "web flatness"],
            Self::Twist => ["twist"; 2],
            Self::Length => ["length"; 2],
        }
    }

    /// Its name in files and in JSON, in one word.
    pub const fn key(self) -> &'static str {
        self.names()[0]
    }

    /// Its name in words: that of a flange toe stands for tilt and cup together.
    pub const fn name(self) -> &'static str {
        self.names()[1]
    }
}

/// Some of them.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub struct Quantities(u8);

impl Quantities {
    /// Every quantity.
    pub const ALL: Self = Self(u8::MAX);
    /// None.
    pub const NONE: Self = Self(0);

    /// These and another.
    #[must_use]
    pub const fn with(self, quantity: Quantity) -> Self {
        Self(self.0 | 1 << quantity as u8)
    }

    /// Whether it is one of them.
    pub const fn contains(self, quantity: Quantity) -> bool {
        self.0 & 1 << quantity as u8 != 0
    }

    /// Whether there are any.
    pub const fn any(self) -> bool {
        self.0 != 0
    }
}
