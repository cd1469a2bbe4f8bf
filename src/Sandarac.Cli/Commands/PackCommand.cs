using System.CommandLine;
using System.Globalization;
using Sandarac.Cli.Output;
using Sandarac.Studio.Archive;

namespace Sandarac.Cli.Commands;

/// <summary><c>sandarac pack</c>: a painting's whole record as one archive package.</summary>
internal static class PackCommand
{
    public static Command Create()
    {
        var painting = new Argument<Guid>("PAINTING") { Description = "The painting's id, as in the address of its Easel." };
        var target = new Option<string>("--out") { Description = "The package: a folder that is not there yet, or a file that ends in .zip.", HelpName = "BAG", Required = true };
        var studio = new StudioOption();
        var command = new Command("pack", "Pack one painting with everything on record of it, for an archive or another studio: a BagIt bag with originals, readings, record, documents and checksums.") { painting, target };
        studio.AddTo(command);
        command.SetAction(async (parsed, cancellation) =>
        {
            using var opened = studio.Open(parsed);
            var package = await Say.WithProgress("Packing", report => new Packing(opened).Pack(parsed.GetValue(painting), parsed.GetRequiredValue(target), new SynchronousProgress<double>(d => report(d, "")), cancellation));
            Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{package.Title}: {package.Files} files, {package.Bytes / 1e6:0.0} MB, {package.Rows} rows of the record, in {package.Path}"));
            Say.Line($"To see that it is whole: sandarac unpack {package.Path} --check");
            return 0;
        });
        return command;
    }
}
