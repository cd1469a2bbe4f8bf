using System.CommandLine;
using Sandarac.Cli.Output;
using Sandarac.Imaging;
using Sandarac.Studio;
using Sandarac.Studio.Documents;
using Sandarac.Studio.Documents.Building;
using Sandarac.Studio.Documents.Phrasing;
using Sandarac.Studio.Documents.Templates;

namespace Sandarac.Cli.Commands;

/// <summary><c>sandarac report</c>: a document about a painting, from the record.</summary>
internal static class ReportCommand
{
    public static Command Create()
    {
        var painting = new Argument<Guid>("PAINTING") { Description = "The painting's id, as in the address of its Easel." };
        var kind = new Option<DocumentKind>("--kind") { Description = "What it is for: first, examination, condition, proposal, treatment, loan.", HelpName = "KIND", DefaultValueFactory = _ => DocumentKind.Examination };
        var format = new Option<Rendering>("--format") { Description = "pdf for archives and print, docx for editing, html for screens.", HelpName = "FORMAT", DefaultValueFactory = _ => Rendering.Pdf };
        var language = new Option<string>("--language") { Description = $"One of: {string.Join(", ", Phrases.All.Select(p => p.Language))}.", HelpName = "CODE", DefaultValueFactory = _ => Phrases.English.Language };
        var template = new Option<string?>("--template") { Description = "JSON: your letterhead and order of sections.", HelpName = "FILE" };
        var fields = new Option<string?>("--fields") { Description = "JSON: what a person fills in, such as owner, course of treatment, approval.", HelpName = "FILE" };
        var purpose = new Option<string?>("--purpose") { Description = "What the document is for; before that of --fields.", HelpName = "TEXT" };
        var author = new Option<string?>("--author") { Description = "Who is responsible for it; before that of --fields.", HelpName = "NAME" };
        var target = new Option<string>("--out") { Description = "The file to write.", HelpName = "FILE", Required = true };
        var force = new Option<bool>("--force") { Description = "Replace a file that is there." };
        var studio = new StudioOption();
        var command = new Command("report", "Write a document about a painting: examination, condition, treatment proposal, treatment, loan check.") { painting, kind, format, language, template, fields, purpose, author, target, force };
        studio.AddTo(command);
        command.SetAction((parsed, cancellation) =>
        {
            if (!OpenStudio.Exists(parsed.GetRequiredValue<string>("--studio"))) throw new InputProblem("no-studio", "--studio", "There is no studio in this folder.", "Give the folder that was given to examine.");
            using var opened = studio.Open(parsed);
            var filled = parsed.GetValue(fields) is { } file ? DocumentFields.Read(file) : DocumentFields.None;
            filled = filled with { Purpose = parsed.GetValue(purpose) ?? filled.Purpose, Author = parsed.GetValue(author) ?? filled.Author };
            var paper = parsed.GetValue(template) is { } path ? DocumentTemplate.Read(path) : DocumentTemplate.Plain;
            var document = new Dossier(opened).Of(parsed.GetValue(painting), parsed.GetValue(kind), parsed.GetRequiredValue(language), filled, paper);
            Dossier.WriteFile(document, parsed.GetValue(format), parsed.GetRequiredValue(target), parsed.GetValue(force), cancellation);
            Console.WriteLine(Path.GetFullPath(parsed.GetRequiredValue(target)));
            if (parsed.GetValue(format) == Rendering.Pdf) Say.Line("Flagged as PDF/A-2b, not validated as such.");
            return Task.FromResult(0);
        });
        return command;
    }
}
