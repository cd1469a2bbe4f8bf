using System.CommandLine;
using Sandarac.Analysis.Declaring;
using Sandarac.Cli.Output;
using Sandarac.Imaging;

namespace Sandarac.Cli.Commands;

/// <summary><c>sandarac read ID</c>: its options, help and checks are made from the reading's declaration.</summary>
internal static class ReadCommand
{
    public static Command Create()
    {
        var command = new Command("read", "Run one reading on image files, without a studio; `sandarac read ID --help` explains it.");
        foreach (var reading in ReadingCatalogue.All) command.Subcommands.Add(For(reading));
        return command;
    }

    private static Command For(Reading reading)
    {
        var declaration = reading.Declaration;
        var images = new Option<string[]>("--image") { Description = "An image, or INPUT=FILE; once for each.", HelpName = "FILE", Required = true, Arity = ArgumentArity.OneOrMore };
        var output = new Option<string>("--out") { Description = "Folder to make for the results.", HelpName = "DIR", Required = true };
        var scale = new Option<double?>("--scale-mm-per-px") { Description = "Millimetres on the object that a pixel covers; the files' resolution tags count when not given.", HelpName = "MM" };
        var json = new Option<bool>("--json") { Description = "Print figures.json instead of a table." };
        var parameters = declaration.Parameters.ToDictionary(p => p.Name, p => new Option<string?>($"--{p.Name}")
        {
            Description = $"{p.Help} {HelpText.Range(p)}", HelpName = p is DocumentParameter ? "FILE" : p.Type,
        });
        // What no option takes is a parameter that nobody declared: it is refused by name, with the nearest one suggested.
        var command = new Command(declaration.Id, Help(declaration)) { TreatUnmatchedTokensAsErrors = false };
        foreach (var option in new Option[] { images, output, scale, json }.Concat(parameters.Values)) command.Options.Add(option);
        command.SetAction(async (parsed, cancellation) =>
        {
            var given = parameters.Where(p => parsed.GetValue(p.Value) is not null).ToDictionary(p => p.Key, p => parsed.GetValue(p.Value)!);
            foreach (var document in declaration.Parameters.OfType<DocumentParameter>().Where(p => given.ContainsKey(p.Name))) given[document.Name] = DocumentParameter.FromFile(given[document.Name]);
            AddUndeclared(given, parsed.UnmatchedTokens);
            var request = new BareRequest(reading, parsed.GetRequiredValue(images), given, parsed.GetValue(scale), parsed.GetRequiredValue(output));
            var result = await Say.WithProgress(declaration.Title, report => BareRun.Execute(request, new SynchronousProgress<double>(d => report(d, "")), cancellation));
            if (parsed.GetValue(json)) Console.WriteLine(BareRun.ToJson(result));
            else FigureTable.Write(result, request.OutFolder);
            return 0;
        });
        return command;
    }

    private static void AddUndeclared(Dictionary<string, string> given, IReadOnlyList<string> tokens)
    {
        for (var i = 0; i < tokens.Count; i++)
        {
            if (!tokens[i].StartsWith("--", StringComparison.Ordinal))
                throw new InputProblem("unknown-argument", tokens[i], $"\"{tokens[i]}\" belongs to nothing.", "Images are given with --image, parameters with --NAME VALUE.");
            var (name, value) = tokens[i].Split('=', 2) is [var n, var v] ? (n, v) : (tokens[i], i + 1 < tokens.Count ? tokens[++i] : "");
            given[name[2..]] = value;
        }
    }

    private static string Help(Declaration d) => string.Join("\n", [
        $"{d.Title}, version {d.Version}. {d.Summary}", "",
        "Method: " + d.Citation, "Limits: " + d.Limits, "",
        "Inputs:", .. HelpText.Inputs(d).Select(Line), "",
        "Results:", .. HelpText.Outputs(d).Select(Line)]);

    private static string Line(HelpLine line) => $"  {line.Term}: {line.Text}";
}
