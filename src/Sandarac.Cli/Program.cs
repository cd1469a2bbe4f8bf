using System.CommandLine;
using Sandarac.Cli.Commands;
using Sandarac.Cli.Output;
using Sandarac.Imaging;

namespace Sandarac.Cli;

internal static class Program
{
    private const int BadInput = 2;
    private const int Cancelled = 130;

    public static async Task<int> Main(string[] args)
    {
        var root = new RootCommand("All evidence of one painting on one measured plane.")
        {
            DemoCommand.Create(), ExamineCommand.Create(), OpenCommand.Create(), ReadingsCommand.Create(), ReadCommand.Create(), AlignCommand.Create(),
            RerunCommand.Create(), ScaleCommand.Create(), WalkCommand.Create(), ReportCommand.Create(), CheckCommand.Create(), PackCommand.Create(),
            UnpackCommand.Create(), SpecimenCommand.Create(), ScoreCommand.Create(), SolventCommand.Create(), MixCommand.Create(), BlendCommand.Create(),
            RingsCommand.Create(), PanelCommand.Create(), SpectrumCommand.Create(), DatingCommand.Create(),
        };
        var parsed = root.Parse(args);
        try
        {
            var code = await parsed.InvokeAsync(new InvocationConfiguration { EnableDefaultExceptionHandler = false });
            return parsed.Errors.Count > 0 ? BadInput : code;
        }
        catch (InputProblem problem)
        {
            Say.Problem(problem);
            return BadInput;
        }
        catch (OperationCanceledException)
        {
            Say.Line("Cancelled. What had been reported stored is kept; nothing half done is.");
            return Cancelled;
        }
    }
}
