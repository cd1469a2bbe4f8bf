Console.WriteLine("Nothing is measured yet.");
