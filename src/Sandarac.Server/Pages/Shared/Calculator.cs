using Microsoft.AspNetCore.Components;
using Sandarac.Imaging;

namespace Sandarac.Server.Pages.Shared;

/// <summary>Something that is computed on a page: what was given stands in the address, and is there for this one only.</summary>
public abstract class Calculator : ComponentBase
{
    [CascadingParameter] private HttpContext Http { get; set; } = null!;

    /// <summary>What the address calls it.</summary>
    protected abstract string Id { get; }

    /// <summary>Whether the address asks it.</summary>
    private protected bool IsAsked { get; private set; }

    /// <summary>What was wrong with what was given; null when nothing was.</summary>
    protected InputProblem? Problem { get; private set; }

    /// <summary>What was given; nothing where another calculator was asked.</summary>
    private protected Entered Given { get; private set; } = new(null);

    /// <summary>Computes the result from what was given.</summary>
    protected abstract void Calculate();

    /// <inheritdoc/>
    protected override void OnInitialized()
    {
        IsAsked = Http.Request.Query["calc"] == Id;
        if (!IsAsked) return;
        Given = new Entered(Http.Request.Query);
        try
        {
            Calculate();
        }
        catch (InputProblem problem)
        {
            Problem = problem;
        }
    }

    /// <summary>A number that must be there.</summary>
    /// <exception cref="InputProblem">The field is empty ("number-missing") or holds no number.</exception>
    private protected double Needed(string field, string called) => Given.Number(field, called) ?? throw new InputProblem("number-missing", field, $"{called}: no number is given.", "Enter digits, with a point or a comma.");
}
