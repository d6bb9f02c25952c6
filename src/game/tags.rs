//! The tag section of a game (PGN standard, 8.1).

/// The tag pairs of a game, in the order of the file.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Tags(Vec<(String, String)>);

impl Tags {
    /// Adds a tag pair at the end.
    pub fn push(&mut self, name: impl Into<String>, value: impl Into<String>) {
        self.0.push((name.into(), value.into()));
    }

    /// Returns the first value given for `name`, whatever the case of its letters.
    #[must_use]
    pub fn get(&self, name: &str) -> Option<&str> {
        self.0
            .iter()
            .find(|(key, _)| key.eq_ignore_ascii_case(name))
            .map(|(_, value)| value.as_str())
    }

    /// Returns the value of `name` unless it is missing, empty or the standard's `?` for unknown.
    #[must_use]
    pub fn known(&self, name: &str) -> Option<&str> {
        self.get(name)
            .filter(|value| !matches!(value.trim(), "" | "?"))
    }

    /// Walks the pairs in the order of the file.
    #[must_use]
    pub fn iter(&self) -> impl ExactSizeIterator<Item = (&str, &str)> {
        self.0
            .iter()
            .map(|(name, value)| (name.as_str(), value.as_str()))
    }
}

impl<N: Into<String>, V: Into<String>> FromIterator<(N, V)> for Tags {
    fn from_iter<I: IntoIterator<Item = (N, V)>>(pairs: I) -> Tags {
        let mut tags = Tags::default();
        for (name, value) in pairs {
            tags.push(name, value);
        }
        tags
    }
}
