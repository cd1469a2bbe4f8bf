using System.CommandLine;
using Sandarac.Studio;

namespace Sandarac.Cli.Commands;

/// <summary>The options that say which studio is meant; the same for every command that needs one.</summary>
internal sealed class StudioOption
{
    private readonly Option<string> _folder = new("--studio")
    {
        Description = "The studio's folder; made when it is new.", DefaultValueFactory = _ => DefaultFolder, HelpName = "FOLDER",
    };

    private readonly Option<string?> _postgres = new("--postgres")
    {
        Description = "Connection string, when the record is kept in PostgreSQL instead of in the folder.", HelpName = "CONNECTION",
    };

    /// <summary>Below the place where this system keeps a person's program data.</summary>
    public static string DefaultFolder { get; } =
        Path.Combine(Environment.GetFolderPath(Environment.SpecialFolder.LocalApplicationData, Environment.SpecialFolderOption.DoNotVerify), "sandarac", "studio");

    public void AddTo(Command command)
    {
        command.Options.Add(_folder);
        command.Options.Add(_postgres);
    }

    public OpenStudio Open(ParseResult parsed) => OpenStudio.At(parsed.GetRequiredValue(_folder), parsed.GetValue(_postgres));
}
