//! Which file of a crate uses which other, read from its syntax: grouped, nested and aliased imports,
//! and paths in expressions and types alike.

use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::path::{Path, PathBuf};
use syn::visit::{self, Visit};

/// A module by its path within the crate, `["check", "whole"]`; the crate's root is empty.
pub type Module = Vec<String>;

/// The modules of a crate that stand in files of their own, each with the modules that it uses. Tests
/// are left out: they may reach anywhere.
///
/// # Panics
/// A file that cannot be read or is no Rust.
pub fn uses(source: &Path) -> BTreeMap<Module, BTreeSet<Module>> {
    let mut files = BTreeMap::new();
    gather(source, &mut Module::new(), &mut files);
    let modules: BTreeSet<Module> = files.keys().cloned().collect();
    files
        .iter()
        .map(|(module, file)| {
            let text = fs::read_to_string(file).unwrap_or_else(|it| panic!("{file:?}: {it}"));
            let tree = syn::parse_file(&text).unwrap_or_else(|it| panic!("{file:?}: {it}"));
            let mut reader = Reader {
                module,
                modules: &modules,
                used: BTreeSet::new(),
            };
            reader.visit_file(&tree);
            reader.used.remove(module);
            (module.clone(), reader.used)
        })
        .collect()
}

/// The groups of modules that use each other in a cycle, each sorted.
pub fn cycles(uses: &BTreeMap<Module, BTreeSet<Module>>) -> Vec<Vec<Module>> {
    let reaches: BTreeMap<&Module, BTreeSet<&Module>> = uses
        .keys()
        .map(|from| (from, reached(uses, from)))
        .collect();
    let mut cycles: Vec<Vec<Module>> = Vec::new();
    for from in uses.keys() {
        if cycles.iter().flatten().any(|known| known == from) {
            continue;
        }
        let both = |other: &&&Module| reaches[**other].contains(from);
        let cycle: Vec<Module> = reaches[from]
            .iter()
            .filter(both)
            .map(|it| (*it).clone())
            .collect();
        if !cycle.is_empty() {
            cycles.push(cycle);
        }
    }
    cycles
}

/// Everything that a module uses, directly or through others; itself where it is on a cycle.
fn reached<'a>(
    uses: &'a BTreeMap<Module, BTreeSet<Module>>,
    from: &Module,
) -> BTreeSet<&'a Module> {
    let mut reached = BTreeSet::new();
    let mut next: Vec<&Module> = uses[from].iter().collect();
    while let Some(module) = next.pop() {
        if reached.insert(module) {
            next.extend(&uses[module]);
        }
    }
    reached
}

fn gather(folder: &Path, module: &mut Module, files: &mut BTreeMap<Module, PathBuf>) {
    let mut entries: Vec<PathBuf> = fs::read_dir(folder)
        .unwrap_or_else(|it| panic!("{folder:?}: {it}"))
        .map(|entry| entry.unwrap_or_else(|it| panic!("{folder:?}: {it}")).path())
        .collect();
    entries.sort();
    for path in entries {
        let stem = path
            .file_stem()
            .unwrap_or_default()
            .to_string_lossy()
            .into_owned();
        if path.is_dir() {
            module.push(stem);
            gather(&path, module, files);
            module.pop();
        } else if path.extension().is_some_and(|it| it == "rs") && !is_test(&stem) {
            let own = match stem.as_str() {
                "mod" | "lib" => module.clone(),
                _ => module.iter().cloned().chain([stem]).collect(),
            };
            files.insert(own, path);
        }
    }
}

/// `main` is a crate of its own beside the library.
fn is_test(stem: &str) -> bool {
    matches!(stem, "tests" | "main")
}

struct Reader<'a> {
    module: &'a Module,
    modules: &'a BTreeSet<Module>,
    used: BTreeSet<Module>,
}

impl Reader<'_> {
    /// Notes the module of a path: the deepest one that its segments name.
    fn note(&mut self, segments: &[String]) {
        let Some((first, rest)) = segments.split_first() else {
            return;
        };
        let (mut at, mut rest) = match first.as_str() {
            "crate" => (Module::new(), rest),
            "self" => (self.module.clone(), rest),
            "super" => (parent(self.module), rest),
            child => {
                let mut own = self.module.clone();
                own.push(child.to_owned());
                if !self.modules.contains(&own) {
                    return;
                }
                (own, rest)
            }
        };
        while let Some((next, later)) = rest.split_first() {
            if next == "super" {
                at = parent(&at);
            } else {
                let mut deeper = at.clone();
                deeper.push(next.clone());
                if !self.modules.contains(&deeper) {
                    break;
                }
                at = deeper;
            }
            rest = later;
        }
        // A module that is named for itself and not for something in it is used all the same.
        self.used.insert(at);
    }

    fn note_tree(&mut self, tree: &syn::UseTree, before: &[String]) {
        let with = |name: &syn::Ident| [before, &[name.to_string()]].concat();
        match tree {
            syn::UseTree::Path(path) => self.note_tree(&path.tree, &with(&path.ident)),
            syn::UseTree::Name(name) if name.ident == "self" => self.note(before),
            syn::UseTree::Name(name) => self.note(&with(&name.ident)),
            syn::UseTree::Rename(name) => self.note(&with(&name.ident)),
            syn::UseTree::Glob(_) => self.note(before),
            syn::UseTree::Group(group) => {
                for tree in &group.items {
                    self.note_tree(tree, before);
                }
            }
        }
    }
}

fn parent(module: &Module) -> Module {
    let (_, parent) = module
        .split_last()
        .expect("the root of a crate has no parent");
    parent.to_vec()
}

impl<'ast> Visit<'ast> for Reader<'_> {
    fn visit_item_mod(&mut self, item: &'ast syn::ItemMod) {
        let is_test = item.attrs.iter().any(|attribute| {
            attribute.path().is_ident("cfg")
                && attribute
                    .parse_args::<syn::Ident>()
                    .is_ok_and(|it| it == "test")
        });
        if !is_test {
            visit::visit_item_mod(self, item);
        }
    }

    fn visit_item_use(&mut self, item: &'ast syn::ItemUse) {
        self.note_tree(&item.tree, &[]);
    }

    fn visit_path(&mut self, path: &'ast syn::Path) {
        let segments: Vec<String> = path
            .segments
            .iter()
            .map(|it| it.ident.to_string())
            .collect();
        if segments.len() > 1 {
            self.note(&segments);
        }
        visit::visit_path(self, path);
    }

    fn visit_visibility(&mut self, _: &'ast syn::Visibility) {
        // `pub(in super::super)` uses nothing.
    }
}
