//! A value with its place in the file, for messages.

use std::borrow::{Borrow, Cow};
use std::ops::Range;

use schemars::{JsonSchema, Schema, SchemaGenerator};
use serde::{Deserialize, Serialize};

/// A value with its place in the file; it compares, serialises and is described as the value alone.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Hash, Deserialize, Serialize)]
#[serde(transparent)]
pub struct Spanned<T>(toml::Spanned<T>);

impl<T> Spanned<T> {
    /// Makes a value with its place, in bytes from the start of the file.
    pub fn new(span: Range<usize>, value: T) -> Self {
        Self(toml::Spanned::new(span, value))
    }

    /// Returns the place, in bytes from the start of the file.
    pub fn span(&self) -> Range<usize> {
        self.0.span()
    }

    /// Returns the value.
    pub fn get_ref(&self) -> &T {
        self.0.get_ref()
    }

    /// Returns the value without its place.
    pub fn into_inner(self) -> T {
        self.0.into_inner()
    }
}

impl Borrow<str> for Spanned<String> {
    fn borrow(&self) -> &str {
        self.get_ref()
    }
}

impl<T: JsonSchema> JsonSchema for Spanned<T> {
    fn inline_schema() -> bool {
        T::inline_schema()
    }

    fn schema_name() -> Cow<'static, str> {
        T::schema_name()
    }

    fn schema_id() -> Cow<'static, str> {
        T::schema_id()
    }

    fn json_schema(generator: &mut SchemaGenerator) -> Schema {
        T::json_schema(generator)
    }
}
