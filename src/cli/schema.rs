//! `standin schema`: JSON Schemas of the files that people write, for editors.

use std::fs;
use std::path::PathBuf;

use clap::ValueEnum;
use schemars::generate::SchemaSettings;
use schemars::transform::RecursiveTransform;
use schemars::{JsonSchema, Schema};
use serde_json::{Value, json};

use super::context::Context;
use super::failure::{Failure, FailureKind};
use super::{Outcome, files};
use crate::book::style::WrittenBook;
use crate::kitchen::written::WrittenKitchen;
use crate::knowledge::written::WrittenFile;
use crate::knowledge::{Kind, Knowledge};
use crate::recipe::written::WrittenRecipe;
use crate::report::json;
use crate::trial::written::WrittenTrial;

/// Write the JSON Schema of a kind of file, for editors
///
/// An editor with a TOML plug-in then completes keys, shows what each means, and marks wrong ones
/// while you type. Write the schemas into a folder and begin your file with a line such as
/// "#:schema schemas/recipe.schema.json". The schema knows keys and shapes; `standin lint` also
/// knows amounts, names and balances.
#[derive(Debug, clap::Args)]
#[command(after_help = EXAMPLES)]
pub(crate) struct SchemaArgs {
    /// Kind of file
    #[arg(value_name = "KIND", value_enum, required_unless_present = "output")]
    kind: Option<FileKind>,

    /// Offer the ids of the knowledge base where one is asked for; other names stay allowed
    #[arg(long)]
    names: bool,

    /// Write KIND.schema.json into this folder, for the kind named or for all
    #[arg(long, value_name = "DIR")]
    output: Option<PathBuf>,
}

const EXAMPLES: &str = "\
Examples:
  standin schema recipe
  standin schema kitchen --names
  standin schema --output schemas";

/// A kind of file that people write.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
enum FileKind {
    /// A recipe
    Recipe,
    /// A kitchen
    Kitchen,
    /// A record of a trial
    Trial,
    /// The book.toml of a book
    Book,
    /// Knowledge, such as a team lays over the built-in
    Knowledge,
}

impl FileKind {
    const fn word(self) -> &'static str {
        match self {
            Self::Recipe => "recipe",
            Self::Kitchen => "kitchen",
            Self::Trial => "trial",
            Self::Book => "book",
            Self::Knowledge => "knowledge",
        }
    }

    fn schema(self) -> Schema {
        match self {
            Self::Recipe => schema_of::<WrittenRecipe>(),
            Self::Kitchen => schema_of::<WrittenKitchen>(),
            Self::Trial => schema_of::<WrittenTrial>(),
            Self::Book => schema_of::<WrittenBook>(),
            Self::Knowledge => schema_of::<WrittenFile>(),
        }
    }
}

/// Describes a type in draft 2020-12, without the null that TOML does not have.
fn schema_of<T: JsonSchema>() -> Schema {
    let settings = SchemaSettings::draft2020_12();
    let settings = settings.with_transform(RecursiveTransform(without_null));
    settings.into_generator().into_root_schema_for::<T>()
}

fn without_null(schema: &mut Schema) {
    if let Some(Value::Array(types)) = schema.get_mut("type") {
        types.retain(|name| name != "null");
        if let [only] = types.as_slice() {
            let only = only.clone();
            schema.insert("type".to_owned(), only);
        }
    }
    if let Some(Value::Array(options)) = schema.get_mut("anyOf") {
        options.retain(|option| option.get("type").is_none_or(|name| name != "null"));
        if let [Value::Object(only)] = options.as_slice() {
            let only = only.clone();
            schema.remove("anyOf");
            only.into_iter().for_each(|(key, value)| {
                schema.insert(key, value);
            });
        }
    }
}

/// Places of a schema that ask for the name of an entry: of a text, or of the keys of a table.
const NAMED: &[(&str, Kind)] = &[
    ("/$defs/WrittenIngredient/properties/food", Kind::Food),
    ("/$defs/WrittenStep/properties/technique", Kind::Technique),
    ("/$defs/WrittenStep/properties/priorities/items", Kind::Attribute),
    ("/$defs/WrittenStep/properties/targets/propertyNames", Kind::Attribute),
    ("/properties/supplies/items", Kind::Supply),
    ("/properties/appliances/propertyNames", Kind::Appliance),
    ("/$defs/WrittenMeasuredStep/properties/route", Kind::Route),
    ("/$defs/WrittenMeasuredStep/properties/measured/propertyNames", Kind::Attribute),
];

/// Runs the command.
pub(crate) fn run(args: &SchemaArgs, context: &mut Context<'_>) -> anyhow::Result<Outcome> {
    let knowledge = if args.names { Some(context.knowledge()?) } else { None };
    let text = |kind: FileKind| -> anyhow::Result<String> {
        let mut schema = kind.schema();
        schema.insert("title".to_owned(), json!(format!("standin: {}", kind.word())));
        if let Some(knowledge) = &knowledge {
            offer_names(&mut schema, knowledge);
        }
        Ok(json::pretty(&schema)?)
    };
    let Some(folder) = &args.output else {
        let texts = args.kind.into_iter().map(text).collect::<anyhow::Result<String>>()?;
        context.out.write_all(texts.as_bytes())?;
        return Ok(Outcome::Done);
    };
    let kinds = args.kind.map_or(FileKind::value_variants().to_vec(), |kind| vec![kind]);
    fs::create_dir_all(folder).map_err(|error| {
        Failure::new(FailureKind::File, format!("{}: {error}", folder.display()))
    })?;
    for kind in kinds {
        let path = folder.join(format!("{}.schema.json", kind.word()));
        files::write_whole(&path, text(kind)?.as_bytes(), true)?;
        context.remark(&format!("wrote {}", path.display()))?;
    }
    Ok(Outcome::Done)
}

/// Lists the ids of the knowledge base wherever a schema asks for one, beside any other text.
fn offer_names(schema: &mut Schema, knowledge: &Knowledge) {
    for (place, kind) in NAMED {
        let ids: Vec<&str> = knowledge
            .entries()
            .into_iter()
            .filter(|(entry, _)| entry.kind == *kind)
            .map(|(entry, _)| entry.id)
            .collect();
        let (owner, key) = place.rsplit_once('/').unwrap_or(("", place));
        let Some(Value::Object(owner)) = schema.pointer_mut(owner) else { continue };
        if key != "propertyNames" && !owner.contains_key(key) {
            continue;
        }
        let wanted = owner.entry(key).or_insert_with(|| json!({ "type": "string" }));
        if let Value::Object(wanted) = wanted {
            wanted.insert("anyOf".to_owned(), json!([{ "enum": ids }, { "type": "string" }]));
        }
    }
}
